import { expect, test } from "vitest";
import { costPerPrint } from "#domain/methods/cost-per-print.ts";
import { costInWords, paceInWords } from "#domain/methods/effort-in-words.ts";
import { summariseWay } from "#domain/methods/summarise-way.ts";

const EUR = (amount: number) => ({ amount, currency: "EUR" });
const made = (...pairs: [printId: number, setUpId: number | null][]) => pairs.map(([printId, setUpId]) => ({ printId, setUpId }));

test("a method costs what its priced set-ups cost, shared by the prints captured with them, each print once", () => {
  // 300 + 100 over prints 1, 2, 3 and 4; print 5 was captured with a set-up without a price, 6 with none named
  const captures = made([1, 1], [1, 1], [2, 1], [2, 2], [3, 2], [4, 2], [5, 3], [6, null]);
  const cost = costPerPrint(
    captures,
    new Map([
      [1, EUR(300)],
      [2, EUR(100)],
    ]),
  );
  expect(cost).toEqual({ perPrint: 100, price: EUR(400), prints: 4, leftOut: 2 });
  expect(costInWords(cost)).toBe("100.00 EUR a print (400.00 shared by 4; 2 more, by set-ups without a price or none named, left out)");
});

test("a priced set-up that was not used costs this way nothing", () => {
  expect(
    costPerPrint(
      made([1, 1]),
      new Map([
        [1, EUR(50)],
        [9, EUR(5000)],
      ]),
    ),
  ).toMatchObject({ perPrint: 50 });
});

test.each([
  ["no set-up has a price", made([1, 3]), new Map(), "not known: none of its set-ups has a price"],
  ["no capture names one", made([1, null]), new Map([[1, EUR(5)]]), "not known: its captures name no set-up"],
  [
    "prices are in two currencies",
    made([1, 1], [2, 2]),
    new Map([
      [1, EUR(5)],
      [2, { amount: 5, currency: "CHF" }],
    ]),
    "not known: its set-ups are priced in CHF and EUR",
  ],
] as const)("where %s the cost is not told, with the reason", (_, captures, prices, words) => {
  expect(costInWords(costPerPrint(captures, prices))).toBe(words);
});

test("minutes a print say how many steps they rest on, or why there are none", () => {
  const taken = (takenAt: string | null, index: number) => ({
    printId: index,
    side: "front" as const,
    way: "w",
    setUpId: null,
    meets: true,
    values: new Map(),
    takenAt,
  });
  const pace = (times: (string | null)[]) => paceInWords(summariseWay("w", times.map(taken), [], new Map()).minutes);
  const six = [0, 3, 6, 10, 14, 18].map((minute) => `2026-02-01T10:${String(minute).padStart(2, "0")}:00Z`);
  expect(pace(six)).toBe("4.0 min a print (median of 5 steps)");
  expect(pace([null, null])).toBe("minutes not known: no file says when it was taken");
  expect(pace(["2026-02-01T10:00:00Z", "2026-02-03T10:00:00Z"])).toBe(
    "minutes not known: fewer than five prints were taken within half an hour of the one before",
  );
});
