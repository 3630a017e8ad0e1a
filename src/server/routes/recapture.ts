import { Hono } from "hono";
import { cautionsFor } from "#domain/condition/cautions-for.ts";
import { ALL_PRINTS } from "#domain/print/print-filter.ts";
import { listPurposes } from "#drizzle/queries/aims.ts";
import { readCollection } from "#drizzle/queries/collection.ts";
import { latestFindings } from "#drizzle/queries/findings.ts";
import { listPrints } from "#drizzle/queries/prints.ts";
import { recaptureList } from "#drizzle/queries/recapture.ts";
import { RecapturePage } from "#views/pages/recapture.tsx";
import type { Context } from "../context.ts";

export const recaptureRoutes = (context: Context): Hono =>
  new Hono().get("/recapture", (c) => {
    const today = context.now().slice(0, 10);
    const purposes = listPurposes(context.db);
    const purpose = purposes.find((each) => each.key === c.req.query("purpose")) ?? purposes[0];
    const prints = new Map(listPrints(context.db, ALL_PRINTS).rows.map((print) => [print.id, print]));
    const lines = recaptureList(context.db, today, { purposes: purpose ? [purpose] : [], prints: [...prints.values()] });
    const findings = latestFindings(
      context.db,
      lines.map((line) => line.printId),
    );
    return c.html(
      RecapturePage({
        collectionName: readCollection(context.db).name,
        purposes,
        purposeKey: purpose?.key ?? "",
        lines: lines.map((line) => {
          const { processedOn = null, formatId = null } = prints.get(line.printId) ?? {};
          const found = findings.get(line.printId) ?? [];
          return { ...line, cautions: cautionsFor({ processId: line.processId, formatId, processedOn, today, findings: found }) };
        }),
      }),
    );
  });
