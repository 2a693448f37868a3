// What the page says: a line for screen readers and eyes, notices that stay, questions.

import { byId, el } from "./dom.js";

/** One sentence about what just happened. */
export function say(sentence, wrong = false) {
  const line = byId("said");
  line.className = wrong ? "wrong" : "";
  line.textContent = sentence;
}

/** A notice that stays until it is put away; a new one of the same `id` takes its place. */
export function notice(id, title, lines = []) {
  putAway(id);
  const shown = lines.slice(0, 12).map((line) => el("li", {}, el("bdi", {}, line)));
  if (lines.length > 12) shown.push(el("li", {}, `and ${lines.length - 12} more`));
  byId("notices").append(
    el("div", { class: "notice", "data-notice": id },
      el("strong", {}, title), shown.length ? el("ul", {}, ...shown) : null,
      el("button", { type: "button", onclick: () => putAway(id) }, "put away")),
  );
}

export function putAway(id) {
  for (const old of document.querySelectorAll("[data-notice]")) if (old.dataset.notice === id) old.remove();
}

/** Ask between choices [[answer, label]…]; the first is chosen by Enter, the last by Escape. */
export function ask(title, sentence, choices) {
  const dialog = byId("ask");
  dialog.querySelector("h2").textContent = title;
  dialog.querySelector("p").textContent = sentence;
  return new Promise((resolve) => {
    const answer = (chosen) => { dialog.close(); resolve(chosen); };
    dialog.querySelector(".choices").replaceChildren(
      ...choices.map(([chosen, label]) => el("button", { type: "button", onclick: () => answer(chosen) }, label)),
    );
    dialog.oncancel = (event) => { event.preventDefault(); answer(choices.at(-1)[0]); };
    dialog.showModal();
    dialog.querySelector("button").focus();
  });
}
