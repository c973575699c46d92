// Reads a calendar file as strictly as RFC 5545 writes it: what isn't of its form is an error. The
// oracle reads the same writer's files with a library, and so does `readByLibrary` with a file that the
// app handed out; this one is for all of those, and needs nothing but Node.

import { execFileSync } from "node:child_process";
import { fileURLToPath } from "node:url";

const READER = fileURLToPath(new URL("../../oracle/read_calendar.py", import.meta.url));

/** § 3.1: octets in a line, its end not counted. */
const LONGEST_LINE = 75;
const UTC = /^(\d{4})(\d\d)(\d\d)T(\d\d)(\d\d)(\d\d)Z$/;
const MINUTE = 60_000;

/** The calendar's name and its events, each with its moments and those of its alarms, in ms since 1970. */
export function readCalendar(text) {
  const lines = unfolded(text);
  const read = block(lines, "VCALENDAR");
  if (lines.length) throw new Error(`something follows the calendar: ${lines[0].name}`);
  only(read, "VERSION", "2.0");
  const product = only(read, "PRODID");
  const events = read.blocks.map(({ name, ...event }) => {
    if (name !== "VEVENT") throw new Error(`${name} in a calendar`);
    return eventOf(event);
  });
  const ids = new Set(events.map(({ id }) => id));
  if (ids.size !== events.length) throw new Error("two events have one UID");
  return { product, name: plain(only(read, "X-WR-CALNAME")), events };
}

/** The same as the Python library `icalendar` reads it, without the product and when it was written. */
export function readByLibrary(text) {
  const python = process.env.OVENTIDE_PYTHON ?? "python3";
  return JSON.parse(execFileSync(python, [READER], { input: text, encoding: "utf8" }));
}

function eventOf(event) {
  const start = moment(only(event, "DTSTART"));
  const end = event.values.DTEND ? moment(only(event, "DTEND")) : start;
  if (event.values.DTEND && end <= start) throw new Error("an event ends before it starts");
  return {
    id: plain(only(event, "UID")),
    written: moment(only(event, "DTSTAMP")),
    start,
    end,
    title: plain(only(event, "SUMMARY")),
    note: plain(only(event, "DESCRIPTION")),
    alarms: event.blocks.map(({ name, ...alarm }) => {
      if (name !== "VALARM") throw new Error(`${name} in an event`);
      only(alarm, "ACTION", "DISPLAY");
      plain(only(alarm, "DESCRIPTION"));
      const [, minutes] = only(alarm, "TRIGGER").match(/^-PT(\d+)M$/);
      return start - Number(minutes) * MINUTE;
    }),
  };
}

/** § 3.1: every line ends with CR LF, is at most so long, and goes on in the next where that begins with a space. */
function unfolded(text) {
  if (!text.endsWith("\r\n") || /[^\r]\n|\r[^\n]/.test(text)) throw new Error("a line's end isn't CR LF");
  const lines = text.slice(0, -2).split("\r\n");
  const whole = [];
  for (const line of lines) {
    const { length } = Buffer.from(line, "utf8");
    if (length > LONGEST_LINE) throw new Error(`a line of ${length} octets`);
    if (/[\x00-\x08\x0b-\x1f\x7f\ufffd]/.test(line)) throw new Error("a line with a control, or a letter taken apart");
    if (line.startsWith(" ")) whole.push(whole.pop() + line.slice(1));
    else whole.push(line);
  }
  return whole.map((line) => {
    const [, name, value] = line.match(/^([A-Z-]+):(.*)$/) ?? [];
    if (!name) throw new Error(`no line of a calendar: ${line}`);
    return { name, value };
  });
}

/** What stands between a BEGIN and its END: values first, then blocks, after which no value may follow. */
function block(lines, wanted) {
  const begin = lines.shift();
  if (begin?.name !== "BEGIN" || (wanted && begin.value !== wanted)) throw new Error(`no ${wanted}`);
  const read = { name: begin.value, values: {}, blocks: [] };
  while (lines.length) {
    const [{ name, value }] = lines;
    if (name === "BEGIN") {
      read.blocks.push(block(lines));
      continue;
    }
    lines.shift();
    if (name === "END") {
      if (value !== begin.value) throw new Error(`${begin.value} ends as ${value}`);
      return read;
    }
    if (read.blocks.length) throw new Error(`${name} behind a block`);
    (read.values[name] ??= []).push(value);
  }
  throw new Error(`${begin.value} has no end`);
}

function only({ values }, name, wanted) {
  const found = values[name] ?? [];
  if (found.length !== 1) throw new Error(`${found.length} times ${name}`);
  if (wanted !== undefined && found[0] !== wanted) throw new Error(`${name} is ${found[0]}`);
  return found[0];
}

function moment(value) {
  const parts = value.match(UTC);
  if (!parts) throw new Error(`${value} is no moment in UTC`);
  const [year, month, ...rest] = parts.slice(1).map(Number);
  return Date.UTC(year, month - 1, ...rest);
}

/** § 3.3.11: nothing but these is escaped, and these always are. */
function plain(value) {
  if (/(^|[^\\])(\\\\)*[;,]/.test(value)) throw new Error(`something isn't escaped: ${value}`);
  return value.replaceAll(/\\(.)/g, (_, letter) => {
    if (letter === "n" || letter === "N") return "\n";
    if (!"\\;,".includes(letter)) throw new Error(`\\${letter} is no escape`);
    return letter;
  });
}
