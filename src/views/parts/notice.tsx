import type { Child } from "hono/jsx";

export type NoticeLevel = "danger" | "warning" | "caution" | "notice" | "good";

/** Something to be told, beside the work. The words carry the level; the colour only repeats it. */
export const Notice = (props: { level: NoticeLevel; title?: string; children?: Child }) => (
  <div class={`notice notice-${props.level}`} role={props.level === "good" ? "status" : undefined}>
    {props.title ? <h2>{props.title}</h2> : null}
    {props.children}
  </div>
);

/** What may stand after `?done=` in the address that a form leads to: fixed words, never a stranger's. */
const DONE: Readonly<Record<string, string>> = {
  "print-created": "The print is in the collection.",
  "print-saved": "The changes are saved, and the record as it was before is in the history.",
  "print-unchanged": "Nothing was different, so nothing was saved.",
  "print-binned": "The print lies in the bin. Its number stays taken, and it can be restored at any time.",
  "print-restored": "The print is back in the collection.",
  "place-created": "The place is there. The form keeps its kind and what it stands in, for the next one.",
  "place-deleted": "The place is gone.",
  "place-saved": "The changes are saved, and the place as it was before is in its history.",
  "place-unchanged": "Nothing was different, so nothing was saved.",
  "capture-saved": "What is said of the capture is saved. Where its print or side changed, it is measured again.",
  "capture-put-away": "The capture is put away and counts nowhere. Its file is kept, and it can be taken back at any time.",
  "capture-taken-back": "The capture counts again, and is measured anew.",
  "capture-assigned": "The capture has its print and is measured against its size.",
  "captures-assigned": "The captures have their print and are measured against its size.",
  "none-assigned": "No capture was assigned: each was left in the tray, or somebody has sorted it meanwhile.",
  "print-created-with-capture": "The print is in the collection, and the capture belongs to it.",
  "print-created-alone": "The print is in the collection. The capture was not given to it: somebody has sorted it meanwhile.",
  "caution-overruled": "The method is recorded, and your reason stands in the history.",
  "outline-set": "The outline is kept as you set it, and the capture is measured anew with it.",
  "outline-given-back": "The outline is looked for again, and the capture measured anew.",
  "bed-divided": "The bed is divided. Each part is a capture of its own now.",
  "already-sorted": "That capture is no longer in the tray: somebody has sorted it meanwhile.",
  "master-overruled": "Your choice stands, with your reason, until you give it back to the rule.",
  "master-released": "The rule decides again.",
  "master-with-rule": "Nobody had chosen this master by hand: the rule decides already.",
  "proposal-accepted": "The later capture is the master now, and stands until you decide otherwise.",
  "proposal-declined": "Your choice stays. That capture is not proposed again in its place.",
  "proposal-gone": "That proposal does not wait any more: it was answered, or the captures have changed.",
  "survey-recorded": "The look is kept. What was found stands below, and the cautions follow it. Photographs can be added to each finding.",
  photographed: "The photographs are kept with the finding.",
  "photograph-taken-out": "The photograph is taken from the finding. Its file stays among the originals.",
  "climate-typed": "The reading is kept.",
  "climate-taken-back": "The readings of that file are taken out again.",
  "climate-stopped": "The import is stopped. None of its readings was kept.",
  "display-logged": "The days on display are kept, and counted in the light the print has had.",
  "display-ended": "The last day on display is kept.",
  "display-taken-back": "Those days on display are taken out again.",
  "round-through": "Every print of this round has been looked at.",
  "work-sheet-put-away": "The work sheet is put away. It stands at the foot of this list, and can be taken out again.",
  "work-sheet-made": "The work sheet is made, and kept until all of it is done.",
  "good-enough": "It is good enough, and not asked for again. It stands at the foot of the list with your reason.",
  "asked-again": "It is asked for again.",
  "set-up-saved": "The changes are saved, and the set-up as it was before is in its history.",
  "set-up-unchanged": "Nothing was different, so nothing was saved.",
  "figures-kept": "The figures are kept with the set-up; plans that start from it begin with them.",
  "target-checked": "It is read, and the check is kept with the set-up.",
  "target-outlined": "The target is read with the corners that you set.",
  "target-check-taken-out": "The check is taken out. Its file is kept.",
  "set-up-created": "The set-up is there.",
  "measure-asked": "The capture waits to be measured again. What was read from it before holds until then.",
  "measure-not-asked": "That capture cannot be measured: it is gone, it was put away, or it is a bed that has been divided.",
  "older-asked": "They wait to be measured again. What was read from them before holds until then.",
  "older-none": "Nothing is left that an older version measured: somebody has asked for it already.",
  "work-retried": "What had failed waits to be measured again.",
  "work-cancelled": "What was waiting is cancelled; what is being measured now goes on to its end.",
  "work-resumed": "What was cancelled waits to be measured again.",
  "choices-renewed": "The masters are chosen by the aims that hold now.",
  "aim-saved": "The new version is kept, and masters are being chosen by it. Earlier versions stay below.",
  "aim-unchanged": "It asks the same as before, so no new version was made.",
  "purpose-copied": "The copy is there, and masters are being chosen for it. Change what it asks whenever you like.",
  "eye-none": "No pair is left that you have not judged, or none that can be shown at one scale.",
  "purpose-aside": "The purpose is set aside. What was chosen for it is kept.",
  "purpose-taken-up": "The purpose is in use again, and masters are being chosen for it.",
  "collection-saved": "The collection's name and number pattern are saved.",
};

/** Says what was just done, after the form has led to the next page. */
export function DoneNotice(props: { done: string | undefined }) {
  const words = props.done === undefined ? undefined : DONE[props.done];
  if (!words) return null;
  return (
    <Notice level="good">
      <p>{words}</p>
    </Notice>
  );
}
