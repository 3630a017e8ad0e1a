import chromium from "@sparticuz/chromium";
import { type Browser, chromium as playwright } from "playwright-core";

/** A Chromium that comes with the npm packages, so that a bare machine needs nothing else. */
export async function launchBrowser(): Promise<Browser> {
  return playwright.launch({
    executablePath: await chromium.executablePath(),
    args: [
      ...chromium.args,
      "--disable-quic",
      "--no-first-run",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
    ],
  });
}
