import { create as contentDisposition } from "content-disposition";
import { Hono } from "hono";
import { findPrint } from "#drizzle/queries/prints.ts";
import type { Context } from "../context.ts";
import { conditionReport } from "../report/condition-report.ts";
import { writeConditionReport } from "../report/write-condition-report.ts";
import { idIn } from "./form.ts";

/** A print's condition as a file to print, to send and to sign. */
export const conditionReportRoutes = (context: Context): Hono =>
  new Hono().get("/prints/:id{[0-9]+}/condition-report.pdf", async (c) => {
    const id = idIn(c);
    const print = id === null ? null : findPrint(context.db, id);
    if (print?.binnedAt !== null) return c.notFound();
    const pdf = await writeConditionReport(await conditionReport(context, print));
    c.header("Content-Disposition", contentDisposition(`${print.objectNumber} condition report.pdf`, { type: "inline" }));
    c.header("Cache-Control", "no-store");
    return c.body(new Uint8Array(pdf), 200, { "Content-Type": "application/pdf" });
  });
