// What has which fields, the key that opens each for typing, and the list that completes it.

import { state } from "./store.js";
import { words } from "./dom.js";

const PART = [
  ["count", "c", "pieces"], ["kind", "k", "kind", "kinds"], ["role", "r", "role", "roles"],
  ["values", "=", "value"], ["package", "p", "package"], ["colour", "o", "colour"],
  ["maker", "m", "maker"], ["part_number", "i", "imprint"], ["safety_class", "y", "safety class", "classes"],
  ["board", "b", "board", "board-names"],
];
const DEVICE = [
  ["name", "k", "called"], ["maker", "m", "maker"], ["model", "i", "model"], ["topology", "p", "topology"],
  ["ratings", "=", "rating"], ["size", "z", "size"], ["weight", "w", "weight"],
];
const PORT = [
  ["name", "k", "called"], ["protocols", "p", "protocols"], ["outputs", "o", "outputs"],
  ["inputs", "i", "inputs"], ["values", "=", "value"],
];
const BOARD = [["name", "k", "called"]];
const SORTS = { part: PART, device: DEVICE, port: PORT, board: BOARD };

// A bare figure of these is understood; all other values are named.
const PLAIN = new Set([
  "capacitance", "resistance", "inductance", "rated_voltage", "rated_current", "rated_power",
  "battery_capacity",
]);
const PORT_OWN = new Set(["name", "protocols", "outputs", "inputs"]);

export const sort = (of) => of.split(":")[0];
export const ident = (of) => of.slice(sort(of).length + 1);

/** The plain part, port, board, loose quantity or device that `of` names. */
export function thing(of) {
  switch (sort(of)) {
    case "part": return state.parts.get(ident(of));
    case "port": return state.ports[Number(ident(of))];
    case "board": return state.boards.find((board) => board.id === ident(of));
    case "loose": return state.unplaced[Number(ident(of))];
    default: return state.device;
  }
}

/** The fields of a thing, in order: {field, key, label, list, text, plain}; empty ones too. */
export function fields(of) {
  const plain = thing(of);
  return (SORTS[sort(of)] ?? []).flatMap(([name, key, label, list]) => {
    if (name === "values" || name === "ratings") {
      const held = sort(of) === "port" ? Object.entries(plain).filter(([n]) => !PORT_OWN.has(n)) : Object.entries(plain[name] ?? {});
      const prefix = sort(of) === "port" ? "" : `${name}.`;
      const shown = held.map(([n, text]) => ({
        field: prefix + n, key: "", label: words(n), list: "", text, plain: PLAIN.has(n),
      }));
      return [...shown, { field: "value", key, label, list: "quantities", text: "", plain: true }];
    }
    const value = plain[name];
    let text = Array.isArray(value) ? value.join(", ") : String(value ?? "");
    if (name === "board") text = state.boards.find((board) => board.id === value)?.name ?? text;
    const bare = name === "count" || name === "kind" || name === "name";
    return [{ field: name, key, label, list: list ?? "", text, plain: bare }];
  });
}

/** A thing in a few words: "p7 electrolytic capacitor". */
export function called(of) {
  const plain = thing(of);
  switch (sort(of)) {
    case "part": return plain ? `${plain.id} ${plain.kind}` : `${ident(of)}, taken out`;
    case "port": return plain ? `port ${Number(ident(of)) + 1}, ${plain.name}` : "a port, taken out";
    case "board": return plain?.name ?? "a board, taken out";
    case "loose": return plain?.value ?? "a quantity";
    default: return of === "record" ? "the whole record" : "device";
  }
}
