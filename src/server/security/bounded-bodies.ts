import type { MiddlewareHandler } from "hono";
import { bodyLimit } from "hono/body-limit";
import { HTTPException } from "hono/http-exception";

/** A form with every field of a record filled to the brim stays well below this. */
export const FORM_BYTES = 1024 * 1024;

/** Paths that take files: they stream to disk and bound each file themselves. */
const STREAMED: readonly RegExp[] = [
  /^\/add$/,
  /^\/places\/\d+\/climate\/files$/,
  /^\/findings\/\d+\/photographs$/,
  /^\/set-ups\/\d+\/checks$/,
  /^\/set-ups\/\d+\/even-sheet$/,
];

const forms = bodyLimit({
  maxSize: FORM_BYTES,
  onError: () => {
    throw new HTTPException(413, { message: "form too large" });
  },
});

/** Bounds every body that is not streamed by its own route. */
export const boundedBodies: MiddlewareHandler = (c, next) => (STREAMED.some((path) => path.test(c.req.path)) ? next() : forms(c, next));
