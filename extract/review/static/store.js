// The record as the server has it, and the one queue of edits. Every edit is answered with the new
// state; a stale one is refused, and the person is asked.

import { byId } from "./dom.js";

const root = `/api/records/${byId("page").dataset.record}`;
const listeners = [];
let queue = Promise.resolve();

/** The present state. `parts` by id, in the order of `order`; see the API's description. */
export const state = {
  version: "", parts: new Map(), order: [], device: {}, ports: [], boards: [], unplaced: [],
  flags: [], progress: null, cautions: [], undo: null, redo: null, mistakes: [],
};

/** Be told of every new state: (changed part ids, what differs in words or null, own edit?). */
export const onChange = (listener) => listeners.push(listener);

async function request(path, body) {
  const options = body && {
    method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(body),
  };
  const response = await fetch(root + path, options);
  const answer = await response.json();
  return { ok: response.ok, answer };
}

export const talk = async () => (await request("/talk")).answer;
export const recordingUrl = `${root}/recording`;
export const names = async () => (await fetch("/api/names")).json();

/** A text as it would stand in a field: {field, text, problem}. */
export async function check(of, field, text) {
  const asked = new URLSearchParams({ of, field, text });
  return (await request(`/check?${asked}`)).answer;
}

/** The phrases of the talk; the record then comes again, with the words of its fields. */
export async function marks() {
  const { answer } = await request("/marks");
  await enqueue(() => {
    state.version = "";
    return fetchState(true);
  });
  return answer;
}

/** Ask for the present state; tells whether the server answered. */
export const refresh = (own = false) => enqueue(() => fetchState(own));

async function fetchState(own) {
  const { ok, answer } = await request(state.version ? `?version=${state.version}` : "");
  if (!ok) throw new Error(answer.problem);
  if (answer.view) take(answer, own);
  else if (String(answer.mistakes) !== String(state.mistakes)) {
    state.mistakes = answer.mistakes;
    tell([], null, own);
  }
}

function enqueue(work) {
  const done = queue.then(work);
  queue = done.catch(() => undefined);
  return done;
}

/** Make an edit; {ok} or {ok: false, problem, stale, now}. */
export const edit = (asked) => change("/edits", () => ({ version: state.version, edit: asked }));
export const undo = () => change("/undo", () => ({ version: state.version }));
export const redo = () => change("/redo", () => ({ version: state.version }));

function change(path, body) {
  return enqueue(async () => {
    const { ok, answer } = await request(path, body());
    if (ok) take(answer, true);
    await fetchState(ok);
    document.body.dataset.edits = Number(document.body.dataset.edits ?? 0) + 1;
    return ok ? { ok } : { ok, ...answer };
  });
}

function take(answer, own) {
  const { view } = answer;
  const before = own ? null : snapshot();
  if (answer.whole) state.parts = new Map();
  for (const [id, part] of Object.entries(view.parts)) state.parts.set(id, part);
  const left = new Set(view.order);
  const gone = [...state.parts.keys()].filter((id) => !left.has(id) && state.parts.delete(id));
  const { parts, unplaced, ...rest } = view;
  Object.assign(state, rest, {
    unplaced: unplaced ?? state.unplaced,
    version: answer.version, undo: answer.undo, redo: answer.redo, mistakes: answer.mistakes,
  });
  tell([...Object.keys(parts), ...gone], before && differences(before, snapshot()), own, answer.whole);
}

function tell(changed, differs, own, whole = false) {
  for (const listener of listeners) listener(changed, differs, own, whole);
}

/** Every fact of the record as one line: what it belongs to, and its text. */
function snapshot() {
  const facts = new Map();
  const add = (owner, value, path) => {
    if (Array.isArray(value)) facts.set(`${owner} ${path}`, value.join(", "));
    else if (value && typeof value === "object") {
      for (const [name, inner] of Object.entries(value)) add(owner, inner, name.replaceAll("_", " "));
    } else facts.set(`${owner} ${path}`, String(value));
  };
  const skipped = new Set(["flags", "heard", "links", "spans", "id", "at"]);
  const facts_of = (owner, plain) => {
    for (const [name, value] of Object.entries(plain)) if (!skipped.has(name)) add(owner, value, name.replaceAll("_", " "));
  };
  for (const [id, part] of state.parts) facts_of(id, part);
  facts_of("device", state.device);
  state.ports.forEach((port, index) => facts_of(`port ${index + 1}`, port));
  for (const board of state.boards) facts_of(board.id, board);
  return facts;
}

function differences(before, after) {
  const lines = [];
  for (const [what, text] of after) {
    const old = before.get(what);
    if (old !== text) lines.push(old === undefined ? `${what}: ${text}` : `${what}: ${old} → ${text}`);
  }
  for (const what of before.keys()) if (!after.has(what)) lines.push(`${what} taken out`);
  return lines;
}
