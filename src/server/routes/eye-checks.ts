import { readFile } from "node:fs/promises";
import path from "node:path";
import { Hono, type Context as Request } from "hono";
import { EYE_ANSWERS } from "#domain/master/eye-check.ts";
import { findAim, listAllPurposes } from "#drizzle/queries/aims.ts";
import { listCapturesOfPrint } from "#drizzle/queries/captures.ts";
import { readCollection } from "#drizzle/queries/collection.ts";
import { answerEyeCheck, type EyeCheck, findEyeCheck } from "#drizzle/queries/eye-checks.ts";
import { findPrint } from "#drizzle/queries/prints.ts";
import { EyeAnswerPage, EyeCheckPage, EyeWaitPage, PLACES } from "#views/pages/eye-check.tsx";
import { drawEyeCheck, liesOnOthers } from "../actions/draw-eye-check.ts";
import { type Laying, laySideOfPrint } from "../actions/lay-side-of-print.ts";
import { laidFolder } from "../collection-folder.ts";
import type { Context } from "../context.ts";
import { inTurn } from "../images/derived-picture.ts";
import { partOfTiles } from "../images/part-of-tiles.ts";
import { tileLevels } from "../images/tiles.ts";
import { readForm } from "./form.ts";

/** Side of a close-up on the print, mm, and on the screen, px: 40 px to the mm, beyond what a good scan of a print holds. */
const CLOSE_UP_MM = 16;
const CLOSE_UP_PX = 640;

/** Two captures compared by eye without names. Neither a page nor the address or head of a picture tells which is which. */
export function eyeCheckRoutes(context: Context): Hono {
  const { db } = context;
  const checkIn = (c: Request): EyeCheck | null => findEyeCheck(db, c.req.param("address") ?? "");
  const collectionName = () => readCollection(db).name;
  const purposeOf = (check: EyeCheck) => listAllPurposes(db).find(({ id }) => id === check.purposeId) ?? null;

  /** Refused too where one of the two does not lie on the other: its outline was not found, its file cannot be read, it could not be lined up. */
  const laidOf = async (check: EyeCheck): Promise<Laying> => {
    const print = findPrint(db, check.printId);
    if (print?.binnedAt !== null) return { refused: "the print is no longer there" };
    const laying = await laySideOfPrint(context, print, check.side);
    if ("laid" in laying && ![check.leftId, check.rightId].every((id) => liesOnOthers(laying.laid, id)))
      return { refused: "one of the two does not lie on the other" };
    return laying;
  };

  const idOf = (check: EyeCheck, which: string | undefined) => (which === "left" ? check.leftId : check.rightId);

  const send = (c: Request, bytes: Uint8Array | null) => {
    if (!bytes) return c.notFound();
    // nothing of it is kept, and no tag: one capture shown twice must not be known again by its head
    c.header("Cache-Control", "private, no-store");
    return c.body(new Uint8Array(bytes), 200, { "Content-Type": "image/jpeg" });
  };

  return new Hono()
    .post("/eye", async (c) => {
      const { purposeKey = "", choiceId } = await readForm(c);
      const drawn = await drawEyeCheck(context, { purposeKey, ...(choiceId && { choiceId: Number(choiceId) }) });
      if (drawn.ok) return c.redirect(`/eye/${drawn.value.address}`, 303);
      return c.redirect(findAim(db, purposeKey) ? `/purposes/${purposeKey}?done=eye-none#by-eye` : "/purposes?done=eye-none", 303);
    })

    .get("/eye/:address", async (c) => {
      const check = checkIn(c);
      const purpose = check && purposeOf(check);
      if (!check || !purpose) return c.notFound();
      const common = { collectionName: collectionName(), address: check.address, purpose };
      if (check.answer !== null) return c.html(EyeAnswerPage({ ...common, ...toldOf(check) }));
      const laying = await laidOf(check);
      if ("laid" in laying) {
        const place = PLACES.find(({ key }) => key === c.req.query("place")) ?? PLACES[4];
        return c.html(EyeCheckPage({ ...common, place: place as (typeof PLACES)[number], canvas: laying.laid.canvas }));
      }
      return c.html(EyeWaitPage({ ...common, refused: "refused" in laying }));
    })

    .post("/eye/:address", async (c) => {
      const check = checkIn(c);
      if (!check) return c.notFound();
      const { answer } = await readForm(c);
      if (answer === "not-shown") {
        answerEyeCheck(db, check.id, "not-shown", context.now());
        return c.redirect(`/purposes/${purposeOf(check)?.key}#by-eye`, 303);
      }
      const said = EYE_ANSWERS.find((known) => known === answer);
      if (!said) return c.redirect(`/eye/${check.address}`, 303);
      answerEyeCheck(db, check.id, said, context.now());
      return c.redirect(`/eye/${check.address}`, 303);
    })

    .get("/eye/:address/:which{(left|right)\\.jpg}", async (c) => {
      const check = checkIn(c);
      const laying = check && (await laidOf(check));
      if (!check || !laying || !("laid" in laying)) return c.notFound();
      const captureId = idOf(check, c.req.param("which").split(".")[0]);
      return send(c, await readFile(path.join(laidFolder(context.folder, check, laying.basis), `${captureId}.jpg`)).catch(() => null));
    })

    .get("/eye/:address/:which{(left|right)-[1-9]\\.jpg}", async (c) => {
      const check = checkIn(c);
      const laying = check && (await laidOf(check));
      if (!check || !laying || !("laid" in laying)) return c.notFound();
      const [which, key] = c.req.param("which").replace(".jpg", "").split("-");
      const captureId = idOf(check, which);
      const laid = laying.laid.captures.find((each) => each.captureId === captureId);
      const place = PLACES.find((each) => each.key === key);
      if (!laid || !place) return c.notFound();
      const { canvas, sheetMm } = laying.laid;
      const sideMm = Math.min(CLOSE_UP_MM, sheetMm.widthMm, sheetMm.heightMm);
      const square = {
        left: Math.floor((canvas.leftMm + place.across * (sheetMm.widthMm - sideMm)) * laid.pxPerMm),
        top: Math.floor((canvas.topMm + place.down * (sheetMm.heightMm - sideMm)) * laid.pxPerMm),
        side: Math.floor(sideMm * laid.pxPerMm),
      };
      const folder = laidFolder(context.folder, check, laying.basis);
      const { finest } = tileLevels(canvas.widthMm * laid.pxPerMm, canvas.heightMm * laid.pxPerMm);
      const made = { sidePx: CLOSE_UP_PX, curve: null };
      return send(c, await inTurn(() => partOfTiles(folder, String(captureId), finest, square, made)).catch(() => null));
    });

  /** What may be told once it is answered. */
  function toldOf(check: EyeCheck) {
    const captures = listCapturesOfPrint(db, check.printId);
    const nameOf = (id: number) => captures.find((capture) => capture.id === id)?.name ?? "a capture that is no longer here";
    const { answer, ruleId, leftId, rightId } = check;
    const pickedId = answer === "left" ? leftId : answer === "right" ? rightId : null;
    const print = findPrint(db, check.printId);
    return {
      print: print && { id: print.id, objectNumber: print.objectNumber, title: print.title },
      side: check.side,
      left: { id: leftId, name: nameOf(leftId) },
      right: { id: rightId, name: nameOf(rightId) },
      answer,
      picked: pickedId === null ? null : { id: pickedId, name: nameOf(pickedId) },
      rule: { id: ruleId, name: nameOf(ruleId) },
      decisive: check.decisive,
      closeCall: check.closeCall,
    };
  }
}
