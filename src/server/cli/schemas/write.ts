import { writeFileSync } from "node:fs";
import { jsonSchemaOf, REPORT_SCHEMAS } from "../schemas.ts";

// Writes the JSON Schema files anew after a report has changed. Run: npx tsx src/server/cli/schemas/write.ts
for (const name of Object.keys(REPORT_SCHEMAS) as (keyof typeof REPORT_SCHEMAS)[])
  writeFileSync(new URL(`${name}.schema.json`, import.meta.url), jsonSchemaOf(name));
