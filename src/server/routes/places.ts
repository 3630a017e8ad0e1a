import { Hono } from "hono";
import type { Context } from "../context.ts";

export const placeRoutes = (_context: Context): Hono => new Hono();
