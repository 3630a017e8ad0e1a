import { expect, test } from "vitest";
import { costPerPrint } from "#domain/methods/cost-per-print.ts";
import { costInWords, effortAgainst, paceInWords } from "#domain/methods/effort-in-words.ts";
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

const WAYS = { first: "copy stand", second: "phone" };
const costs = (perPrint: number, currency: string) => ({
  cost: { perPrint, price: { amount: 10 * perPrint, currency }, prints: 10, leftOut: 0 },
});

test("one way's minutes and price are set beside the other's, with what each rests on", () => {
  const quick = { minutes: { minutes: 6.02, steps: 14 }, ...costs(50, "EUR") };
  const slow = { minutes: { minutes: 6.14, steps: 18 }, ...costs(12.5, "EUR") };
  expect(effortAgainst(quick, slow, WAYS)).toBe(
    "A print takes 6.0 minutes by copy stand against 6.1 by phone (14 and 18 steps, each on its own prints). Equipment costs 50.00 EUR a print by copy stand and 12.50 EUR by phone, shared by 10 and 10 prints.",
  );
});

test("prices in two currencies are told, and which is less is not", () => {
  const minutes = { minutes: 6, steps: 9 };
  expect(effortAgainst({ minutes, ...costs(50, "EUR") }, { minutes, ...costs(12.5, "CHF") }, WAYS)).toContain(
    "50.00 EUR a print by copy stand and 12.50 CHF by phone: two currencies, so which is less is not told.",
  );
});

test("what is not known of one way or of both is said with the reason", () => {
  const none = { minutes: { absent: "no file says when it was taken" }, cost: { absent: "none of its set-ups has a price" } };
  const known = { minutes: { minutes: 6, steps: 9 }, ...costs(50, "EUR") };
  expect(effortAgainst(known, none, WAYS)).toBe(
    "Which is quicker is not known: by phone, no file says when it was taken. Whose equipment costs less a print is not known: by phone, none of its set-ups has a price.",
  );
  expect(effortAgainst(none, none, WAYS)).toContain("Which is quicker is not known: by either, no file says when it was taken.");
});
