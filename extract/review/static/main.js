// The page of a review: puts the modules together, and listens.

import { byId, el, many } from "./dom.js";
import * as act from "./actions.js";
import * as doubts from "./doubts.js";
import { openField } from "./editor.js";
import * as items from "./items.js";
import { ACTIONS, pressed } from "./keys.js";
import { notice, putAway, say } from "./notices.js";
import * as player from "./player.js";
import * as store from "./store.js";
import * as talk from "./talk.js";

const PAUSE = 2000; // milliseconds between two looks at the file
const { state } = store;

document.documentElement.dataset.theme = localStorage.getItem("theme") ?? "";

store.onChange((changed, differs, own, whole) => {
  items.draw(changed, whole);
  talk.relink();
  showProgress();
  doubts.renew();
  if (!own && differs?.length) notice("changed", "Changed in the file or in another tab:", differs);
  if (state.mistakes.length) notice("broken", "The file cannot be read at present, nothing is written until it is mended:", state.mistakes);
  else putAway("broken");
});

function showProgress() {
  const { parts, settled, doubts: open, notes, confirmed } = state.progress;
  byId("bar").max = Math.max(parts, 1);
  byId("bar").value = settled;
  byId("left").textContent = `${settled} of ${parts} settled, ${many(open, "doubt")} left${notes ? `, ${many(notes, "note")}` : ""}${confirmed ? ", confirmed" : ""}`;
  document.querySelector('[data-act="confirm-record"]').setAttribute("aria-pressed", String(confirmed));
  document.querySelector('[data-act="undo"]').disabled = !state.undo;
  document.querySelector('[data-act="redo"]').disabled = !state.redo;
  byId("cautions").hidden = state.cautions.length === 0;
  byId("cautions").querySelector("ul").replaceChildren(...state.cautions.map((caution) => el("li", {}, caution)));
  fill("board-names", state.boards.map(({ name }) => name));
}

const fill = (id, names) => byId(id).replaceChildren(...names.map((name) => el("option", { value: name })));

items.onMove((of) => {
  doubts.follow(of);
  talk.light({ of }, true);
});

document.addEventListener("keydown", pressed);
document.addEventListener("type-value", act.typeValue);
document.addEventListener("selectionchange", act.offerWords);

document.addEventListener("click", ({ target }) => {
  const tool = target.closest("[data-act]");
  if (tool) return ACTIONS[tool.dataset.act]();
  const time = target.closest(".time");
  if (time) return player.playAt(talk.cueAt(time.closest(".cue").dataset.cue).at);
  const mark = talk.markOf(target.closest("[data-mark]"));
  if (mark && getSelection().isCollapsed) {
    player.playAt(mark.mark.at === null ? null : mark.mark.at / 1000);
    if (mark.owners.length) items.go(mark.owners[0].of, { focus: false });
    return undefined;
  }
  return clickInRecord(target);
});

function clickInRecord(target) {
  const row = target.closest("[data-of]");
  if (!row || target.closest(".editor")) return;
  const { of } = row.dataset;
  if (of !== items.currentOf()) items.go(of);
  const flag = target.closest("[data-doubt]");
  const field = target.closest("[data-field]")?.dataset.field;
  if (flag) doubts.takeUpNamed(JSON.parse(flag.dataset.doubt));
  const at = talk.timeOf(of, flag ? doubts.doubtedField()?.field : field);
  if (field) openField(of, field);
  else player.playAt(at);
}

for (const kind of ["mouseover", "focusin"]) document.addEventListener(kind, pointed);

/** Light up what belongs to the thing that is pointed at, on the other side. */
function pointed({ target }) {
  const mark = talk.markOf(target.closest?.("[data-mark]"));
  for (const old of document.querySelectorAll("#record .lit")) old.classList.remove("lit");
  if (mark) {
    for (const { of, field } of mark.owners) {
      items.element(of)?.classList.add("lit");
      items.element(of)?.querySelector(`[data-field="${CSS.escape(field || "-")}"]`)?.classList.add("lit");
    }
    return;
  }
  const row = target.closest?.("[data-of]");
  if (row) talk.light({ of: row.dataset.of, field: target.closest("[data-field]")?.dataset.field }, false);
}

async function look() {
  try {
    if (!document.hidden) await store.refresh();
    putAway("gone");
  } catch {
    notice("gone", "The server does not answer. Every edit that was said to be saved is in the file; start partsaloud review again.");
  }
  setTimeout(look, PAUSE);
}

async function open() {
  const [told, names] = await Promise.all([store.talk(), store.names(), store.refresh(true)]);
  talk.setUp(told);
  player.setUp(told.recording, talk.follow, talk.tell);
  fill("kinds", names.kinds);
  fill("roles", names.roles);
  fill("classes", names.safety_classes);
  fill("quantities", names.quantities.map((name) => name.replaceAll("_", " ")));
  if (state.device.name) byId("title").textContent = `${state.device.name} · ${byId("title").textContent}`;
  items.go(items.shown().find((one) => one.dataset.of.startsWith("part:"))?.dataset.of ?? "device");
  if (state.progress.doubts) doubts.stepDoubt(1);
  document.body.dataset.ready = "parts";
  setTimeout(look, PAUSE);
  talk.setMarks(await store.marks());
  talk.light({ of: items.currentOf(), field: doubts.doubtedField()?.field }, true);
  document.body.dataset.ready = "marks";
}

open().catch((error) => say(`The record cannot be shown: ${error.message}`, true));
