// Some browsers refuse the second argument of Document.parseHTMLUnsafe, which htmx passes: call it with one there.
{
  const parse = Document.parseHTMLUnsafe;
  if (parse) {
    try {
      parse.call(Document, "", {});
    } catch {
      Document.parseHTMLUnsafe = (text) => parse.call(Document, text);
    }
  }
}
