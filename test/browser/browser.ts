import chromium from "@sparticuz/chromium";
import { type Browser, chromium as playwright } from "playwright-core";

const QUIET = ["--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"];

/** A Chromium that comes with the npm packages, so that a bare machine needs nothing else. */
export async function launchBrowser(): Promise<Browser> {
  return playwright.launch({
    executablePath: await chromium.executablePath(),
    args: [...chromium.args, ...QUIET],
  });
}

/** One process for everything, and graphics hardware put on by a program: that suits tests alone. */
const FOR_TESTS_ALONE = /single-process|in-process-gpu|zygote|use-gl|use-angle|swiftshader|ignore-gpu/;

/**
 * The same, as it runs on somebody's machine that has no graphics hardware, for measuring times: in one process a new page waits until
 * the last one was drawn to its end.
 */
export async function launchAsInstalled(): Promise<Browser> {
  const args = chromium.args.filter((each) => !FOR_TESTS_ALONE.test(each));
  return playwright.launch({ executablePath: await chromium.executablePath(), args: [...args, ...QUIET, "--disable-gpu", "--no-zygote"] });
}
