// Elements. Whatever comes from a record or a talk goes in as text, never as markup.

/** An element: attributes, and children that are elements or texts. */
export function el(name, attributes = {}, ...children) {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) {
    if (value === null || value === undefined || value === false) continue;
    if (key.startsWith("on")) made.addEventListener(key.slice(2), value);
    else made.setAttribute(key, value === true ? "" : value);
  }
  made.append(...children.filter((child) => child !== null && child !== undefined && child !== ""));
  return made;
}

/** Text that somebody said or typed, kept from changing the direction of what stands around it. */
export function said(text, attributes = {}) {
  return el("bdi", attributes, String(text));
}

export const byId = (id) => document.getElementById(id);

/** "values.rated_voltage" in words: "rated voltage". */
export const words = (name) => name.replace(/^.*\./, "").replaceAll("_", " ");

/** A list as a sentence has it: "a, b and c". */
export const listed = (texts) =>
  texts.length < 2 ? texts.join("") : `${texts.slice(0, -1).join(", ")} and ${texts.at(-1)}`;

export const many = (number, one, several = `${one}s`) => `${number} ${number === 1 ? one : several}`;

/** "0:01:31.250" in seconds; null where there is no time. */
export function seconds(time) {
  if (!time) return null;
  const [hours, minutes, rest] = time.split(":").map(Number);
  return (hours * 60 + minutes) * 60 + rest;
}

/** Seconds as the record writes them: "0:01:31.250". */
export function timeText(at) {
  const total = Math.round(at * 1000);
  const [whole, rest] = [Math.floor(total / 1000), total % 1000];
  const two = (number) => String(number).padStart(2, "0");
  const clock = `${Math.floor(whole / 3600)}:${two(Math.floor(whole / 60) % 60)}:${two(whole % 60)}`;
  return rest ? `${clock}.${String(rest).padStart(3, "0")}` : clock;
}

/** Seconds without their decimals: "0:01:31". */
export const clock = (at) => (at === null ? "" : timeText(Math.floor(at)));
