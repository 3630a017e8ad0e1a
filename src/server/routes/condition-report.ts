import { create as contentDisposition } from "content-disposition";
import { Hono, type Context as Request } from "hono";
import { ConditionReportPage } from "#views/pages/condition-report.tsx";
import type { Context } from "../context.ts";
import { conditionReport } from "../report/condition-report.ts";
import { reportPictures } from "../report/report-pictures.ts";
import { writeConditionReport } from "../report/write-condition-report.ts";
import { keptPrintIn } from "./kept-print.ts";

/** A print's condition as a page and as a file to print, to send and to sign. */
export function conditionReportRoutes(context: Context): Hono {
  const keptPrint = (c: Request) => keptPrintIn(context, c);

  return new Hono()
    .get("/prints/:id{[0-9]+}/condition-report", async (c) => {
      const print = keptPrint(c);
      return print ? c.html(ConditionReportPage({ report: await conditionReport(context, print) })) : c.notFound();
    })

    .get("/prints/:id{[0-9]+}/condition-report.pdf", async (c) => {
      const print = keptPrint(c);
      if (!print) return c.notFound();
      const report = await conditionReport(context, print);
      const pdf = await writeConditionReport(report, await reportPictures(context, report));
      c.header("Content-Disposition", contentDisposition(`${print.objectNumber} condition report.pdf`, { type: "inline" }));
      c.header("Cache-Control", "no-store");
      return c.body(new Uint8Array(pdf), 200, { "Content-Type": "application/pdf" });
    });
}
