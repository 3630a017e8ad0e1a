import { expect, test } from "vitest";
import { AdviceList } from "#views/parts/advice-list.tsx";

test("advice that only a plan can complete leads to the plan of that print and purpose, other advice does not", () => {
  const html = String(
    AdviceList({
      objectNumber: "1978.004/2",
      purposeKey: "screen",
      advice: [
        { sentence: "Move the lamps.", source: "law of reflection", needsPlan: true },
        { sentence: "Clean the glass.", source: "common practice, no source" },
      ],
    }),
  );
  const [move, clean] = html.split("</li>");
  expect(move).toContain('href="/plan?objectNumber=1978.004%2F2&amp;purpose=screen"');
  expect(clean).not.toContain("/plan");
  expect(clean).toContain("common practice, no source");
});
