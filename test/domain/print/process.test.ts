import { expect, test } from "vitest";
import { FORMATS } from "#domain/print/format.ts";
import { findProcess, PROCESSES } from "#domain/print/process.ts";

test("not known comes first, so that a form that is left alone says so", () => {
  expect(PROCESSES[0]).toMatchObject({ id: "not-known", family: "not-known" });
});

test("every process is known once, and says its material, its source and where memory is the only one", () => {
  expect(new Set(PROCESSES.map(({ id }) => id)).size).toBe(PROCESSES.length);
  for (const process of PROCESSES.slice(1)) {
    expect(process.id).toMatch(/^[a-z]+(-[a-z]+)*$/);
    expect(process.material.length, process.id).toBeGreaterThan(5);
    expect(process.source.length, process.id).toBeGreaterThan(5);
    if (process.source === "from memory") expect(process.doubt, process.id).not.toBeNull();
    expect(findProcess(process.id)).toBe(process);
  }
  expect(findProcess("magic")).toBeNull();
});

test("integral formats are of integral processes and peel-apart ones of peel-apart processes, and of no others", () => {
  for (const group of ["integral-instant", "peel-apart-instant"] as const) {
    const processIds = FORMATS.filter((format) => format.group === group).flatMap((format) => format.processIds);
    expect(new Set(processIds.map((id) => findProcess(id)?.family))).toEqual(new Set([group]));
  }
});
