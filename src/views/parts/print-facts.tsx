import type { Child } from "hono/jsx";
import { imageSize, type PrintSize, sheetSize } from "#domain/print/dimensions.ts";
import { findFormat } from "#domain/print/format.ts";
import type { Print } from "#domain/print/print.ts";
import { findProcess } from "#domain/print/process.ts";
import { RIGHTS } from "#domain/print/rights.ts";
import { pathInWords } from "#domain/storage/place-tree.ts";
import { millimetres, sizeInMm } from "../format/millimetres.ts";
import { PrintDate } from "./print-date.tsx";
import { PRINT_LABELS } from "./print-fields.tsx";

/** The record of a print as a reader sees it: what is known, and only that. */
export function PrintFacts({ print, placePath }: { print: Print; placePath: readonly string[] }) {
  const right = RIGHTS.find((each) => each.uri === print.rightsUri);
  return (
    <dl class="facts">
      <Fact name="date">
        <PrintDate date={print.date} />
        {print.dateGround ? <span class="second-line">{print.dateGround}</span> : null}
      </Fact>
      <Fact name="processId">{findProcess(print.processId)?.name ?? print.processId}</Fact>
      <Fact name="formatId">{print.formatId === null ? null : (findFormat(print.formatId)?.name ?? print.formatId)}</Fact>
      <Size label="Sheet" size={sheetSize(print)} />
      <Size label="Image" size={imageSize(print)} />
      <Fact name="thicknessMm">{print.thicknessMm === null ? null : millimetres(print.thicknessMm)}</Fact>
      <Fact name="placeId">{placePath.length === 0 ? <span class="soft">not known</span> : pathInWords(placePath)}</Fact>
      <Fact name="maker">{print.maker}</Fact>
      <Fact name="people">{print.people.join("; ")}</Fact>
      <Fact name="subjects">{print.subjects.join("; ")}</Fact>
      <Fact name="inscriptionFront">{asTyped(print.inscriptionFront)}</Fact>
      <Fact name="inscriptionBack">{asTyped(print.inscriptionBack)}</Fact>
      <Fact name="processedOn">
        {print.processedOn !== null ? (
          <PrintDate date={print.processedOn} />
        ) : isInstant(print) ? (
          <span class="soft">not known, so it is treated as fresh</span>
        ) : null}
      </Fact>
      <Fact name="provenance">{asTyped(print.provenance)}</Fact>
      <Fact name="rightsUri">{print.rightsUri ? <a href={print.rightsUri}>{right?.label ?? print.rightsUri}</a> : null}</Fact>
      <Fact name="credit">{print.credit}</Fact>
      <Fact name="valueAmount">{print.valueAmount === null ? null : `${print.valueAmount} ${print.valueCurrency ?? ""}`}</Fact>
      <Fact name="significance">
        {print.significance === null ? null : `${print.significance} of 5`}
        {print.significanceNote ? <span class="second-line">{print.significanceNote}</span> : null}
      </Fact>
      <Fact name="notes">{asTyped(print.notes)}</Fact>
    </dl>
  );
}

function Fact({ name, children }: { name: string; children?: Child }) {
  const parts = [children].flat().filter((child) => child !== null && child !== undefined && child !== "");
  if (parts.length === 0) return null;
  return (
    <>
      <dt>{PRINT_LABELS[name] ?? name}</dt>
      <dd>{children}</dd>
    </>
  );
}

const Size = ({ label, size }: { label: string; size: PrintSize | null }) =>
  size === null ? null : (
    <>
      <dt>{label}</dt>
      <dd>
        {sizeInMm(size.widthMm, size.heightMm)}, {size.basis === "measured" ? "measured" : `nominal, ± ${size.toleranceMm} mm`}
        {size.basis === "nominal" ? <span class="second-line">Source: {size.source}</span> : null}
      </dd>
    </>
  );

/** Only an instant print asks for other care while it is fresh. */
const isInstant = ({ processId }: Print): boolean => {
  const family = findProcess(processId)?.family;
  return family === "integral-instant" || family === "peel-apart-instant";
};

const asTyped = (text: string | null) => (text === null ? null : <span class="as-typed">{text}</span>);
