/** The print as a small picture on neutral grey; where there is no capture, a grey card with its title. */
export const PrintThumbnail = (props: { captureId: number | null; title: string }) =>
  props.captureId === null ? (
    <span class="thumbnail thumbnail-empty">
      <span>{props.title === "" ? "Untitled" : props.title}</span>
    </span>
  ) : (
    <span class="thumbnail">
      <img src={`/captures/${props.captureId}/thumbnail.jpg`} alt="" loading="lazy" decoding="async" />
    </span>
  );
