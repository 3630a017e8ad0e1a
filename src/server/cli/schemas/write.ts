import { writeFileSync } from "node:fs";
import { jsonSchemaOf, REPORT_SCHEMAS } from "../schemas.ts";

// Writes the JSON Schema files anew after a report or the list of measures has changed. Run: npm run schemas
for (const name of Object.keys(REPORT_SCHEMAS) as (keyof typeof REPORT_SCHEMAS)[])
  writeFileSync(new URL(`${name}.schema.json`, import.meta.url), `${JSON.stringify(jsonSchemaOf(name), null, 2)}\n`);
