import { purposeInSentence } from "#domain/aim/aim.ts";
import { METHOD_LABELS, METHODS } from "#domain/capture/method.ts";
import { ARRANGEMENT_LABELS } from "#domain/plan/arrangement.ts";
import { findFormat } from "#domain/print/format.ts";
import { findProcess } from "#domain/print/process.ts";
import { findEnclosureKind, findEnclosureMaterial } from "#domain/storage/enclosure.ts";
import { PLACE_KINDS } from "#domain/storage/place.ts";
import { Moment } from "./moment.tsx";
import { KIND_LABELS, PLACE_LABELS } from "./place-fields.tsx";
import { PRINT_LABELS } from "./print-fields.tsx";
import { SET_UP_LABELS } from "./set-up-fields.tsx";
import { photographInWords, surveyInWords } from "./survey-in-words.ts";

export type ShownEvent = {
  readonly at: string;
  /** null: the program itself */
  readonly who: string | null;
  readonly verb: string;
  readonly subject: string;
  readonly subjectId: number;
  readonly detail: Readonly<Record<string, unknown>>;
};

/** Paths of places by id, for events that tell of one. */
export type PlaceNames = ReadonlyMap<number, string>;

/** What happened to a record, newest first, in plain words. */
export function History({ events, places }: { events: readonly ShownEvent[]; places?: PlaceNames }) {
  if (events.length === 0) return <p class="soft">Nothing has happened to it yet.</p>;
  return (
    <ol class="history">
      {events.map((event) => (
        <li>
          <p>{eventInWords(event, places)}</p>
          <p class="small soft">
            <Moment at={event.at} />, {event.who ?? "by the rule"}
          </p>
        </li>
      ))}
    </ol>
  );
}

export function eventInWords(event: ShownEvent, places: PlaceNames = new Map()): string {
  const { verb, subject, detail } = event;
  if (subject === "choice") return choiceInWords(verb, detail);
  if (subject === "capture") return captureInWords(verb, detail);
  if (subject === "round") return `Round started: ${text(detail.name) ?? ""}, ${String(detail.prints)} prints.`;
  if (subject === "survey" && verb === "photographed") return `${photographInWords(detail)} added.`;
  if (subject === "survey" && verb === "photograph taken out") return `${photographInWords(detail)} taken out; its file is kept.`;
  if (subject === "survey") return surveyInWords(detail);
  if (subject === "work-sheet") return workSheetInWords(verb, detail);
  if (subject === "exemption") return exemptionInWords(verb, detail);
  if (subject === "set-up" && verb.startsWith("target check")) return targetCheckInWords(verb, detail);
  if (subject === "display") return displayInWords(verb, detail);
  if (subject === "place" && verb.startsWith("climate")) return climateInWords(verb, detail);
  if (verb === "edited") return `Record changed: ${changedInWords(detail, FIELD_LABELS[subject] ?? PRINT_LABELS, places)}.`;
  return `${SUBJECT_WORDS[subject] ?? subject} ${verb}.`;
}

const FIELD_LABELS: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  place: PLACE_LABELS,
  "set-up": { ...SET_UP_LABELS, ...ARRANGEMENT_LABELS },
};

const SUBJECT_WORDS: Readonly<Record<string, string>> = { print: "Print", place: "Place", "set-up": "Set-up" };

function choiceInWords(verb: string, detail: ShownEvent["detail"]): string {
  const [key, name] = [text(detail.purpose), text(detail.purposeName)];
  const purpose = name ? purposeInSentence({ key: key ?? "", name }) : (key?.replaceAll("-", " ") ?? "master");
  const of = `${purpose}${detail.side === "back" ? ", back" : ""}`;
  const sentence = text(detail.sentence) ?? "";
  if (verb === "released") return `Master for ${of} given back to the rule. ${sentence}`;
  if (verb === "lapsed") return `The master for ${of} that a person had chosen is no capture of this print any more. ${sentence}`;
  if (verb === "proposed") return `A later capture was proposed as master for ${of}. ${sentence}`;
  if (verb === "declined")
    return `The proposal to make ${text(detail.proposedName) ?? "a later capture"} the master for ${of} was declined.`;
  if (verb === "overruled" || verb === "accepted") return `Master for ${of}: ${sentence}`;
  return detail.to === null ? `No capture is good enough to be the master for ${of}. ${sentence}` : `Master for ${of} chosen. ${sentence}`;
}

function captureInWords(verb: string, detail: ShownEvent["detail"]): string {
  const name = text(detail.originalName) ?? "A capture";
  if (verb === "taken in") return `${name} taken in.`;
  if (verb === "moved away") return `${fileIn(detail)} was moved to another print or to the tray.`;
  if (verb === "outline set") return `${fileIn(detail)}: its outline was set by hand.`;
  if (verb === "outline given back") return `${fileIn(detail)}: its outline is looked for again.`;
  if (verb === "put away") return `${fileIn(detail)} was put away. Reason given: ${text(detail.reason) ?? ""}`;
  if (verb === "taken back") return `${fileIn(detail)} was taken back and counts again.`;
  if (verb === "divided") return "A bed was divided into its prints.";
  if (verb === "assigned") return assignedInWords(detail);
  if (verb === "caution overruled") return `${fileIn(detail)}: ${overruledInWords(detail)}`;
  return `Capture ${verb}.`;
}

function workSheetInWords(verb: string, detail: ShownEvent["detail"]): string {
  const of = `Work sheet${detail.side === "back" ? ", back" : ""}`;
  const name = text(detail.fileName);
  if (verb === "row closed") return name ? `${of}: done, ${name} meets the aim.` : `${of}: done, the best capture meets the aim now.`;
  if (verb === "put away" || verb === "taken out") return `Work sheet ${verb}: ${text(detail.name) ?? ""}.`;
  if (verb === "made") return `Work sheet made: ${text(detail.name) ?? ""}, ${String(detail.rows)} rows.`;
  const reasons = Array.isArray(detail.reasons) ? detail.reasons.join(" ") : "";
  return `${of}: asked for again, ${name ?? "the best capture"} falls short. ${reasons}`.trim();
}

function exemptionInWords(verb: string, detail: ShownEvent["detail"]): string {
  const side = detail.side === "back" ? ", back" : "";
  if (verb === "asked again") return `Recapture${side}: asked for again.`;
  const purpose = text(detail.purpose)?.replaceAll("-", " ") ?? "its purpose";
  const what = text(detail.fileName) ?? "no capture";
  return `Recapture${side}: ${what} is good enough for ${purpose}. Reason given: ${text(detail.reason) ?? ""}`;
}

function displayInWords(verb: string, detail: ShownEvent["detail"]): string {
  if (verb === "ended") return `Taken down from display on ${text(detail.endsOn) ?? "a day not said"}.`;
  const days = `on display from ${text(detail.startsOn) ?? "a day not said"} to ${text(detail.endsOn) ?? "now"}, ${detail.lux} lux for ${detail.hoursPerDay} hours a day`;
  return verb === "taken back" ? `Taken out of the display log: ${days}.` : `Logged: ${days}.`;
}

function targetCheckInWords(verb: string, detail: ShownEvent["detail"]): string {
  const check = `${text(detail.target) ?? "a target"} on ${text(detail.takenOn) ?? "a day not said"} (${text(detail.originalName) ?? "a file"})`;
  if (verb === "target checked") return `Checked on a target: ${check}.`;
  if (verb === "target check kept unread") return `A picture of a target was kept, for its corners to be set: ${check}.`;
  if (verb === "target check outlined") return `The corners of a target were set by hand: ${check}.`;
  return `A target check was taken out: ${check}. Its file is kept.`;
}

function climateInWords(verb: string, detail: ShownEvent["detail"]): string {
  if (verb === "climate typed") return "A climate reading was typed.";
  const readings = `${detail.readings} climate ${detail.readings === 1 ? "reading" : "readings"}`;
  const from = text(detail.fileName) === null ? "typed by hand" : `of ${text(detail.fileName)}`;
  return verb === "climate taken back" ? `${readings} ${from} taken out again.` : `${readings} ${from} added.`;
}

/** Earlier events did not keep the name. */
const fileIn = (detail: ShownEvent["detail"]): string => (typeof detail.fileName === "string" ? detail.fileName : "A capture");

function assignedInWords(detail: ShownEvent["detail"]): string {
  const [before, after] = [record(detail.from), record(detail.to)];
  const changes = [
    ...(before.printId !== after.printId ? ["it shows this print"] : []),
    ...(before.side !== after.side ? [`it shows the ${text(after.side)}`] : []),
    ...(before.method !== after.method ? [`its method is ${methodInWords(after.method)}`] : []),
    ...((before.saidDay ?? null) !== (after.saidDay ?? null)
      ? [after.saidDay ? `it was made on ${text(after.saidDay)}` : "its day is as the file says"]
      : []),
  ];
  return changes.length === 0 ? "What is said of a capture was confirmed." : `${fileIn(detail)}: ${changes.join(", ")}.`;
}

/** What a person did despite a caution, and why. */
export const overruledInWords = ({ method, withGlass, title, reason }: ShownEvent["detail"]): string =>
  `made with a ${methodInWords(method)}${withGlass === true ? " and glass over the print" : ""}, although a caution forbids it (${text(title) ?? "not named"}). Reason: ${text(reason) ?? "not given"}`;

/** Each changed field with what stood there and what stands there now. */
function changedInWords(detail: ShownEvent["detail"], labels: Readonly<Record<string, string>>, places: PlaceNames): string {
  const said = (name: string, value: unknown) => valueInWords(idInWords(name, value, places) ?? value);
  const [from, to] = [record(detail.from), record(detail.to)];
  return Object.keys(to)
    .map((name) => `${labels[name] ?? name} from ${said(name, from[name])} to ${said(name, to[name])}`)
    .join("; ");
}

/** What an id stands for; null where the value speaks for itself. */
function idInWords(name: string, value: unknown, places: PlaceNames): string | null {
  if (typeof value === "number") return name === "placeId" || name === "parentId" ? (places.get(value) ?? null) : null;
  if (typeof value !== "string") return null;
  if (name === "processId") return findProcess(value)?.name ?? null;
  if (name === "formatId") return findFormat(value)?.name ?? null;
  if (name === "enclosureKind") return findEnclosureKind(value)?.name ?? null;
  if (name === "enclosureMaterial") return findEnclosureMaterial(value)?.name ?? null;
  const method = name === "method" ? METHODS.find((known) => known === value) : undefined;
  const kind = name === "kind" ? PLACE_KINDS.find((known) => known === value) : undefined;
  return method ? METHOD_LABELS[method] : kind ? KIND_LABELS[kind] : null;
}

function valueInWords(value: unknown): string {
  if (value === null || value === undefined || value === "" || (Array.isArray(value) && value.length === 0)) return "nothing";
  return Array.isArray(value) ? `“${value.join(", ")}”` : `“${String(value)}”`;
}

const methodInWords = (value: unknown): string => {
  const method = METHODS.find((known) => known === value);
  return method ? METHOD_LABELS[method].toLowerCase() : "not known";
};

const text = (value: unknown): string | null => (typeof value === "string" ? value : null);

const record = (value: unknown): Readonly<Record<string, unknown>> =>
  typeof value === "object" && value !== null ? Object.fromEntries(Object.entries(value)) : {};
