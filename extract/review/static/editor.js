// One field typed in its place: what it will be in the record is told while it is typed.

import { el, said } from "./dom.js";
import { called, fields, sort } from "./fields.js";
import { currentOf, element, go } from "./items.js";
import { ask, say } from "./notices.js";
import { check, edit } from "./store.js";

const PAUSE = 120; // milliseconds between the last key and the check

/** Open a field of an item for typing; `typed` is what stands in it at first. */
export function openField(of, field, { typed = null, wordsOf = null } = {}) {
  const row = element(of);
  const known = fields(of).find((one) => one.field === field);
  if (!row || !known) return;
  go(of, { focus: false, tell: false });
  const button = row.querySelector(`[data-field="${CSS.escape(field)}"]`);
  openInput({
    place: button, label: `${known.label} of ${called(of)}`, list: known.list, text: typed ?? known.text,
    checked: (text) => check(of, field, text),
    enter: (text) => put(of, field, text, wordsOf),
    selected: typed === null,
  });
}

async function put(of, field, text, wordsOf) {
  const asked = { op: "set", of, field, text, ...(wordsOf ? { words: wordsOf } : {}) };
  return enter(asked, `${text || "nothing"} for ${field.replace(/^.*\./, "").replaceAll("_", " ")} of ${called(of)}`);
}

/** Send an edit; asks when it came too late. True if nothing is left to type. */
export async function enter(asked, what) {
  let answer = await edit(asked);
  if (!answer.ok && answer.stale && answer.now !== null && answer.now !== undefined) {
    const now = typeof answer.now === "string" ? answer.now || "nothing" : "something else";
    const mine = await ask("Changed meanwhile", `You typed ${what}. In the meantime it became ${now}.`, [
      [true, "Put mine in"], [false, "Keep what is there"],
    ]);
    if (!mine) return true;
    answer = await edit(asked);
  }
  say(answer.ok ? `Saved: ${what}.` : answer.problem, !answer.ok);
  return answer.ok;
}

/** An input in the place of an element. Enter hands the text on, Escape gives up. */
export function openInput({ place, label, list = "", text = "", checked = null, enter: done, selected = false, hint = "" }) {
  const told = el("output", { "aria-live": "polite", class: "hint" }, hint);
  const input = el("input", {
    "aria-label": label, value: text, list: list || null, autocomplete: "off", spellcheck: "false", size: "24",
  });
  const editor = el("span", { class: "editor" }, el("span", { class: "name" }, label.replace(/ of .*/, "")), input, told);
  let closed = false;
  const close = () => {
    closed = true;
    if (editor.isConnected) editor.replaceWith(place);
    go(currentOf(), { tell: false });
  };
  let timer = 0;
  input.addEventListener("input", () => {
    clearTimeout(timer);
    timer = setTimeout(async () => {
      if (!checked || closed || !input.value.trim()) return told.replaceChildren();
      const answer = await checked(input.value);
      tell(told, input, answer);
      return undefined;
    }, PAUSE);
  });
  input.addEventListener("keydown", async (event) => {
    event.stopPropagation();
    if (event.key === "Escape") close();
    if (event.key !== "Enter") return;
    event.preventDefault();
    clearTimeout(timer);
    input.readOnly = true;
    if (await done(input.value)) close();
    else input.readOnly = false;
  });
  place.replaceWith(editor);
  input.focus();
  if (selected) input.select();
  else input.setSelectionRange(text.length, text.length);
  editor.scrollIntoView({ block: "nearest" });
}

function tell(told, input, { field, text, problem }) {
  input.setAttribute("aria-invalid", problem ? "true" : "false");
  told.className = problem ? "wrong" : "";
  const name = field.includes(".") ? `${field.replace(/^.*\./, "").replaceAll("_", " ")} ` : "";
  told.replaceChildren(problem ? `✗ ${problem}` : "→ ", ...(problem ? [] : [name, said(text)]));
}

/** A line under the current item that asks for one text: the board, another part, a kind. */
export function askFor({ label, list = "", text = "", hint = "", checked = null, enter: done }) {
  const row = element(currentOf());
  const place = el("span", { class: "asked" });
  row.append(place);
  openInput({ place, label, list, text, hint, checked, enter: done, selected: Boolean(text) });
}

export const isPart = () => sort(currentOf()) === "part";
