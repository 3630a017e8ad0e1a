import { PrintDate } from "./print-date.tsx";
import type { ShownPrint } from "./print-table.tsx";
import { PrintThumbnail } from "./print-thumbnail.tsx";

/** Pictures side by side on neutral grey, each with its number. */
export const ContactSheet = ({ rows }: { rows: readonly ShownPrint[] }) => (
  <ul class="contact-sheet">
    {rows.map((print) => (
      <li>
        <a href={`/prints/${print.id}`}>
          <PrintThumbnail captureId={print.captureId} title={print.title} />
          <span class="object-number">{print.objectNumber}</span>
          {print.captureId === null ? null : <span class="contact-title">{print.title === "" ? "Untitled" : print.title}</span>}
        </a>
        <span class="contact-date">
          <PrintDate date={print.date} />
        </span>
      </li>
    ))}
  </ul>
);
