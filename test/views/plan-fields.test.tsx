import { expect, test } from "vitest";
import { PLAN_LABELS, PlanFields } from "#views/parts/plan-fields.tsx";

test("a group of a plan's fields that holds a refused one stays open on a phone, whichever it is, and the others fold", () => {
  const foldedGroups = 4;
  const inGroups = Object.keys(PLAN_LABELS).flatMap((name) => {
    const form = { typed: {}, refusals: [{ about: name, happened: "It cannot be read.", remedy: "Write it anew." }] };
    const groups = String(<PlanFields form={form} purposes={[]} />)
      .split("<details")
      .slice(1);
    expect(groups).toHaveLength(foldedGroups);
    const own = groups.filter((group) => group.includes(`name="${name}"`));
    for (const group of groups) {
      const isFolded = group.slice(0, group.indexOf(">")).includes("data-fold-on-phone");
      expect(isFolded, `${name} in ${group.slice(0, 200)}`).toBe(!own.includes(group));
    }
    return own;
  });
  // the fields of camera, scanner, light and cost, all but those of what is captured
  expect(inGroups.length).toBeGreaterThan(25);
});
