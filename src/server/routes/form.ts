import type { Context as Request } from "hono";
import { HTTPException } from "hono/http-exception";
import type { z } from "zod";
import type { Refusal } from "#domain/outcome.ts";

/**
 * The text fields of a sent form, by name; of a name sent twice the last counts. Line ends are those of the program.
 * @throws HTTPException 400 where the body is no whole form, 413 where it is longer than a form may be
 */
export async function readForm(c: Request): Promise<Record<string, string>> {
  const body = await c.req.parseBody().catch((fault: unknown) => {
    throw fault instanceof TypeError ? new HTTPException(400, { message: "no whole form" }) : fault;
  });
  return Object.fromEntries(
    Object.entries(body).flatMap(([name, value]) => (typeof value === "string" ? [[name, value.replaceAll("\r\n", "\n")]] : [])),
  );
}

/** What a schema would not take, field by field; a field of a row is called list.0.field. Its messages already say what to do. */
export const refusalsOf = (error: z.ZodError): Refusal[] =>
  error.issues.map((issue) => ({ about: issue.path.length > 0 ? issue.path.join(".") : null, happened: issue.message, remedy: "" }));

/** The number in a path, or null where it is not one of ours. */
export function idIn(c: Request): number | null {
  const id = Number(c.req.param("id"));
  return Number.isSafeInteger(id) && id > 0 ? id : null;
}
