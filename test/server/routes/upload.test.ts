import { Readable } from "node:stream";
import { buffer } from "node:stream/consumers";
import { expect, test } from "vitest";
import { readUpload, type SentFile } from "#server/routes/upload.ts";

const BOUNDARY = "----test-boundary";

/** A form as it goes over the wire, so that its breaks and lies can be written too. */
function form(parts: readonly string[], { isWhole = true } = {}): Request {
  const text = parts.map((part) => `--${BOUNDARY}\r\n${part}\r\n`).join("");
  return asRequest([Buffer.from(isWhole ? `${text}--${BOUNDARY}--\r\n` : text.slice(0, -4))]);
}

const asRequest = (chunks: readonly Buffer[]): Request =>
  new Request("http://localhost/add", {
    method: "POST",
    headers: { "content-type": `multipart/form-data; boundary=${BOUNDARY}` },
    body: Readable.toWeb(Readable.from(chunks)) as ReadableStream,
    duplex: "half",
  } as RequestInit);

const field = (name: string, value: string) => `Content-Disposition: form-data; name="${name}"\r\n\r\n${value}`;
const file = (name: string, content: string) =>
  `Content-Disposition: form-data; name="files"; filename="${name}"\r\nContent-Type: image/jpeg\r\n\r\n${content}`;

test("files come one after another in their order, each with the fields that stood before it", async () => {
  const taken: unknown[] = [];
  const sent = await readUpload(
    form([field("print", "1978.001"), file("a.jpg", "first"), file("b.jpg", ""), file("c.jpg", "third")]),
    async ({ name, stream }, fields) => {
      taken.push({ name, content: (await buffer(stream)).toString(), print: fields.print });
    },
  );
  expect(taken).toEqual([
    { name: "a.jpg", content: "first", print: "1978.001" },
    { name: "b.jpg", content: "", print: "1978.001" },
    { name: "c.jpg", content: "third", print: "1978.001" },
  ]);
  expect(sent).toMatchObject({ isWhole: true, tooManyFiles: false });
});

test("a slow taker is never given two files at once", async () => {
  let open = 0;
  let most = 0;
  const parts = Array.from({ length: 5 }, (_, index) => file(`${index}.jpg`, "x".repeat(100_000)));
  await readUpload(form(parts), async ({ stream }) => {
    most = Math.max(most, ++open);
    await buffer(stream);
    await new Promise((resolve) => setTimeout(resolve, 5));
    open--;
  });
  expect(most).toBe(1);
});

test("what is not read of a refused file is passed over, so that the next one still comes", async () => {
  const names: string[] = [];
  const sent = await readUpload(form([file("huge.jpg", "x".repeat(3_000_000)), file("small.jpg", "y")]), async ({ name }) => {
    names.push(name);
  });
  expect(names).toEqual(["huge.jpg", "small.jpg"]);
  expect(sent.isWhole).toBe(true);
});

test.each([
  ["left half read", async (stream: Readable) => void (await stream[Symbol.asyncIterator]().next())],
  [
    "broken off while it is read",
    async (stream: Readable) => {
      for await (const _ of stream) break;
    },
  ],
  ["destroyed unread", async (stream: Readable) => void stream.destroy()],
  [
    "met by a fault",
    async () => {
      throw new Error("a fault");
    },
  ],
])("a file %s does not hold up the next one, nor the form", async (_, spoil) => {
  const names: string[] = [];
  const reading = readUpload(form([file("huge.jpg", "x".repeat(3_000_000)), file("small.jpg", "y")]), async ({ name, stream }) => {
    names.push(name);
    if (name === "huge.jpg") await spoil(stream);
    else expect((await buffer(stream)).toString()).toBe("y");
  });
  await reading.catch((error) => expect(String(error)).toContain("a fault"));
  expect(names).toEqual(["huge.jpg", "small.jpg"]);
});

test("two thousand letters of any script come whole, and a field that was cut is named", async () => {
  const reason = "क".repeat(2000);
  const sent = await readUpload(form([field("despite", reason), field("note", "x".repeat(20_000))]), async () => {});
  expect(sent.fields.despite).toBe(reason);
  expect(sent.cutFields).toEqual(["note"]);
});

test("an input left empty is no file", async () => {
  const names: string[] = [];
  const sent = await readUpload(form([file("", "")]), async ({ name }) => void names.push(name));
  expect(names).toEqual([]);
  expect(sent.isWhole).toBe(true);
});

test("of a path that a browser sends with a folder, only the last name is kept; letters beyond ASCII stay", async () => {
  const names: string[] = [];
  await readUpload(form([file("../../etc/1978.001_Größe.jpg", "x")]), async ({ name, stream }) => {
    names.push(name);
    await buffer(stream);
  });
  expect(names).toEqual(["1978.001_Größe.jpg"]);
});

test("a form that breaks off gives the file that was under way an error, and is told apart from a whole one", async () => {
  const outcomes: string[] = [];
  const take = async ({ name, stream }: SentFile) => {
    outcomes.push(
      await buffer(stream).then(
        () => `${name} whole`,
        () => `${name} broken`,
      ),
    );
  };
  const sent = await readUpload(form([file("a.jpg", "first"), file("b.jpg", "second")], { isWhole: false }), take);
  expect(outcomes).toEqual(["a.jpg whole", "b.jpg broken"]);
  expect(sent.isWhole).toBe(false);
});

test("a body that is no form with files is not read at all", async () => {
  const request = new Request("http://localhost/add", { method: "POST", headers: { "content-type": "text/plain" }, body: "hello" });
  const sent = await readUpload(request, async () => {
    throw new Error("there is no file here");
  });
  expect(sent).toEqual({ fields: {}, cutFields: [], tooManyFiles: false, isWhole: false });
});
