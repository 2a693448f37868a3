// The recording beside the narration: plays from two seconds before what was pointed at.

import { byId, el } from "./dom.js";
import { recordingUrl } from "./store.js";

const BEFORE = 2;
let player = null;

/** Put the recording on the page; `follow` is told the time while it plays, `fail` that it cannot. */
export function setUp(recording, follow, fail) {
  if (!recording) return;
  const name = recording.type.startsWith("video") ? "video" : "audio";
  player = el(name, { controls: true, preload: "metadata", src: recordingUrl, "aria-label": `Recording ${recording.name}`, tabindex: "-1" });
  player.addEventListener("timeupdate", () => player.paused || follow(player.currentTime));
  player.addEventListener("loadedmetadata", () => player.classList.toggle("sound", !player.videoWidth));
  player.addEventListener("error", () => {
    player.remove();
    player = null;
    fail(`${recording.name} cannot be played by this browser: MP4 with H.264 and AAC, WebM, MP3 and WAV can.`);
  });
  byId("recording").append(player);
}

export const isThere = () => player !== null;

/** Play from two seconds before a time, in seconds. */
export function playAt(at) {
  if (!player || at === null || at === undefined) return;
  player.currentTime = Math.max(0, at - BEFORE);
  player.play().catch(() => undefined);
}

/** Pause what plays, else play from a time. */
export function toggle(at) {
  if (player && !player.paused) player.pause();
  else playAt(at);
}
