/** What the tests use of the package, which brings no types. */
declare module "edtf" {
  /** @throws on a text that is no EDTF; bounds in milliseconds, null or infinite when open */
  export default function edtf(text: string): { readonly min: number | null; readonly max: number | null };
}
