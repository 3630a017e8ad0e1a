import type { Context as Request } from "hono";
import type { Original, Region } from "#domain/capture/capture.ts";
import { originalPath } from "../collection-folder.ts";
import type { Context } from "../context.ts";
import { closeUp } from "../images/close-up.ts";
import { inTurn } from "../images/derived-picture.ts";

/** The place of an original that the address asks for as x and y, at full resolution; of a part of it where it has a region. */
export async function answerCloseUp(context: Context, c: Request, original: Original, region: Region | null): Promise<Response> {
  const [x, y] = [Number(c.req.query("x")), Number(c.req.query("y"))];
  if (!Number.isFinite(x) || !Number.isFinite(y)) return c.notFound();
  const frame = region ?? { left: 0, top: 0, width: original.widthPx, height: original.heightPx };
  const path = originalPath(context.folder, original.sha256);
  const bytes = await inTurn(() => closeUp({ path, kind: original.kind }, frame, { x, y })).catch(() => null);
  c.header("Cache-Control", "private, no-cache");
  return bytes ? c.body(new Uint8Array(bytes), 200, { "Content-Type": "image/jpeg" }) : c.notFound();
}
