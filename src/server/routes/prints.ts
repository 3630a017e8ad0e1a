import { Hono } from "hono";
import type { Context } from "../context.ts";

export const printRoutes = (_context: Context): Hono => new Hono();
