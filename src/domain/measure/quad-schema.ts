import { z } from "zod";

const point = z.object({ x: z.number(), y: z.number() });

/** Four corners as the database keeps them. */
export const quadSchema = z.object({ topLeft: point, topRight: point, bottomRight: point, bottomLeft: point });
