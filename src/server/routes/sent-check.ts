import { text as readText } from "node:stream/consumers";
import type { Refusal } from "#domain/outcome.ts";
import { MOST_TEXT_BYTES } from "#domain/target/check-input.ts";
import type { Context } from "../context.ts";
import { type CopiedIn, copyIn, plainName } from "../intake/copy-in.ts";
import { readUpload, refusalsOfCut, type SentFile } from "./upload.ts";

/** What a form for a check brought. */
export type Received = {
  fields: Record<string, string>;
  picture: { copied: CopiedIn; name: string } | null;
  refusals: Refusal[];
};

/** The picture goes to disk as it streams in; the small texts are read whole, within their bound. */
export async function readSentCheck(context: Context, request: Request): Promise<Received> {
  const received: Received = {
    fields: { layout: "", reference: "", referenceName: "", takenOn: "", note: "" },
    picture: null,
    refusals: [],
  };
  const sent = await readUpload(request, async (file) => {
    if (file.field === "picture" && received.picture === null) {
      const name = plainName(file.name);
      const copied = await copyIn(context.folder, file.stream, name);
      if (copied.ok) received.picture = { copied: copied.value, name };
      else received.refusals.push(...copied.refusals.map((refusal) => ({ ...refusal, about: "picture" })));
    } else if (file.field === "layout" || file.field === "reference") {
      const text = await boundedText(file);
      if (text === null) received.refusals.push(TOO_LONG(file.field));
      else received.fields[file.field] = text;
      if (file.field === "reference") received.fields.referenceName = plainName(file.name);
    }
  });
  received.refusals.push(...refusalsOfCut(sent));
  if (!sent.isWhole) received.refusals.push(BROKEN_OFF);
  return { ...received, fields: { ...received.fields, takenOn: sent.fields.takenOn ?? "", note: sent.fields.note ?? "" } };
}

/** Null where there is more of it than such a file ever holds. */
async function boundedText({ stream }: SentFile): Promise<string | null> {
  let bytes = 0;
  return readText(
    (async function* () {
      for await (const chunk of stream) {
        bytes += chunk.length;
        if (bytes > MOST_TEXT_BYTES) return;
        yield chunk as Buffer;
      }
    })(),
  ).then((text) => (bytes > MOST_TEXT_BYTES ? null : text));
}

const BROKEN_OFF: Refusal = { about: null, happened: "The form broke off before its end.", remedy: "Send it again." };
const TOO_LONG = (about: string): Refusal => ({
  about,
  happened: "This file is far too long to be what is asked for.",
  remedy: "Choose the small text file that came with the target.",
});
