import type { Structure } from "./structures.ts";
import type { Before } from "./what-was-before.ts";

/** "Grown by 4.2 mm²; it was 3.1 mm²" */
export function beforeInWords({ before, part }: Pick<Structure, "before" | "part">): string {
  const said = stateInWords(before);
  const isOfOld = before.state === "grown" || before.state === "stronger" || before.state === "weaker";
  return isOfOld && part === "picture" ? `${said}, unless the picture itself shows it there` : said;
}

function stateInWords(before: Before): string {
  switch (before.state) {
    case "new":
      return "New";
    case "grown":
      return `Grown by ${area(before.grownMm2)}; it was ${area(before.beforeMm2)}`;
    case "stronger":
      return `Was there, ${area(before.beforeMm2)}, and is stronger`;
    case "weaker":
      return "Was there, and is weaker or gone";
    case "not-told":
      return `Not told whether it is new or has grown: ${before.reason}`;
  }
}

/** "2 new, 1 grown by 4.2 mm²"; empty where there are none. */
export function statesInWords(structures: readonly Pick<Structure, "before">[]): string {
  const of = (state: Before["state"]) => structures.filter(({ before }) => before.state === state).length;
  const grownMm2 = structures.reduce((sum, { before }) => sum + (before.state === "grown" ? before.grownMm2 : 0), 0);
  const said: [count: number, words: string][] = [
    [of("new"), "new"],
    [of("grown"), `grown by ${area(grownMm2)}`],
    [of("stronger"), "there before and stronger"],
    [of("weaker"), "there before and weaker or gone"],
    [of("not-told"), "not told whether new or grown"],
  ];
  return said.flatMap(([count, words]) => (count > 0 ? [`${count} ${words}`] : [])).join(", ");
}

const area = (mm2: number) => `${mm2.toFixed(1)} mm²`;
