import { html } from "hono/html";
import type { Child } from "hono/jsx";

export type Section = "overview" | "prints" | "add" | "recapture" | "condition" | "inventory" | "places";

const SECTIONS: readonly { section: Section; href: string; label: string }[] = [
  { section: "overview", href: "/", label: "Overview" },
  { section: "prints", href: "/prints", label: "Prints" },
  { section: "add", href: "/add", label: "Add captures" },
  { section: "recapture", href: "/recapture", label: "Recapture" },
  { section: "condition", href: "/due", label: "Condition" },
  { section: "inventory", href: "/inventory", label: "Inventory" },
  { section: "places", href: "/places", label: "Places" },
];

const ASKED_AGAIN_S = 3;

/** No styles or scripts of htmx's own making, no page kept in the browser's store, requests to this server alone. */
const HTMX_CONFIG = JSON.stringify({ includeIndicatorCSS: false, history: "reload", mode: "same-origin", extensions: "none" });

/**
 * The whole document around a page: head, way through the collection, and the main part.
 * @param scripts asset names of client scripts that this page alone needs, e.g. "compare.js"
 * @param isAskedAgain something is being made: where no script asks for the page again, it loads anew by itself
 * @param preloads what those scripts will ask for, so that it is on its way before they run: modules, and a library that is none
 */
export function Layout(props: {
  title: string;
  section: Section | null;
  collectionName: string;
  scripts?: readonly string[];
  isAskedAgain?: boolean | undefined;
  preloads?: { readonly modules: readonly string[]; readonly library: string } | undefined;
  children?: Child;
}) {
  return html`<!doctype html>${(
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="color-scheme" content="light" />
        <meta name="htmx-config" content={HTMX_CONFIG} />
        {props.isAskedAgain ? (
          <noscript>
            <meta http-equiv="refresh" content={String(ASKED_AGAIN_S)} />
          </noscript>
        ) : null}
        <title>{`${props.title} · ${props.collectionName}`}</title>
        <link rel="icon" href="/assets/icon.svg" type="image/svg+xml" />
        <link rel="stylesheet" href="/assets/style.css" />
        {props.preloads ? <link rel="preload" as="script" href={`/assets/${props.preloads.library}`} /> : null}
        {props.preloads?.modules.map((name) => (
          <link rel="modulepreload" href={`/assets/${name}`} />
        ))}
        <script src="/assets/parse-html-compatibility.js"></script>
        <script src="/assets/htmx.js" defer></script>
        {props.scripts?.map((name) => (
          <script src={`/assets/${name}`} type="module"></script>
        ))}
      </head>
      <body>
        <a class="skip-link" href="#main">
          Skip to the page
        </a>
        <header class="masthead">
          <div class="masthead-inner">
            <a class="masthead-name" href="/">
              {props.collectionName}
            </a>
            <nav class="masthead-nav" aria-label="Main">
              <ul>
                {SECTIONS.map(({ section, href, label }) => (
                  <li>
                    <a href={href} aria-current={section === props.section ? "page" : undefined}>
                      {label}
                    </a>
                  </li>
                ))}
              </ul>
            </nav>
          </div>
        </header>
        <main id="main" tabindex={-1}>
          {props.children}
        </main>
        <footer class="footing">
          <p>
            <a href="/collection">This collection</a>
            <a href="/purposes">Purposes</a>
            <a href="/formats">Formats</a>
            <a href="/fixity">Fixity</a>
            <a href="/bin">Bin</a>
          </p>
        </footer>
      </body>
    </html>
  )}`;
}
