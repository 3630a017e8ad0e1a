import { expect, test } from "vitest";
import { ChoiceField, LongField, TextField } from "#views/parts/field.tsx";
import { RefusalSummary } from "#views/parts/refusal-summary.tsx";

const refusal = { about: "date", happened: "“junio” is not a date.", remedy: "Write 1978-06." };

test("a refused field keeps what was typed, says so to everybody, and is described by refusal and hint", () => {
  const html = String(
    TextField({ form: { typed: { date: 'junio "<b>' }, refusals: [refusal] }, name: "date", label: "Date", hint: "A year" }),
  );
  expect(html).toContain('value="junio &quot;&lt;b&gt;"');
  expect(html).toContain('aria-invalid="true"');
  expect(html).toContain('aria-describedby="field-date-refusal field-date-hint"');
  expect(html).toMatch(/id="field-date-refusal"[^>]*>“junio” is not a date\. Write 1978-06\.</);
  expect(html).toContain('id="field-date-hint"');
  expect(html).toContain('<label for="field-date">');
});

test("a field that was not refused is not marked", () => {
  const html = String(TextField({ form: { typed: {}, refusals: [refusal] }, name: "title", label: "Title" }));
  expect(html).not.toContain("aria-invalid");
  expect(html).not.toContain("aria-describedby");
});

test("long text keeps its lines and cannot leave its field", () => {
  const html = String(
    LongField({ form: { typed: { notes: "one\n</textarea><script>alert(1)</script>" }, refusals: [] }, name: "notes", label: "Notes" }),
  );
  expect(html).toContain("one\n&lt;/textarea&gt;&lt;script&gt;");
});

test("a value that is no longer in the list stays chosen, so that saving does not lose it", () => {
  const field = (chosen: string) =>
    String(
      ChoiceField({
        form: { typed: { processId: chosen }, refusals: [] },
        name: "processId",
        label: "Process",
        choices: [{ value: "a", label: "A" }],
      }),
    );
  expect(field("gone")).toMatch(/<option value="gone" selected[^>]*>gone \(not in the list\)<\/option>/);
  expect(field("a")).not.toContain("not in the list");
});

test("the summary of a refused form links to the fields, in the order of the form", () => {
  const html = String(
    RefusalSummary({
      refusals: [refusal, { about: "title", happened: "Too long.", remedy: "" }, { about: null, happened: "As a whole.", remedy: "" }],
      labels: { title: "Title", date: "Date" },
    }),
  );
  expect([...html.matchAll(/<li>(?:<a href="([^"]+)">)?/g)].map((match) => match[1])).toEqual([undefined, "#field-title", "#field-date"]);
  expect(html).toContain('role="alert"');
});
