// One deep zoom picture a pane, all of the same part of the print: whichever is moved leads, and the others follow it.

const LIBRARY = "/assets/openseadragon.js";
const MOST_ENLARGED = 16;

/** The library stands on its own in the page, so it is asked for only where pictures are looked at. */
function library() {
  if (window.OpenSeadragon) return Promise.resolve(window.OpenSeadragon);
  return new Promise((resolve, reject) => {
    const script = document.createElement("script");
    script.src = LIBRARY;
    script.addEventListener("load", () => resolve(window.OpenSeadragon));
    script.addEventListener("error", () => reject(new Error(`${LIBRARY} did not load`)));
    document.head.append(script);
  });
}

/**
 * @param stage holds a pane for each capture
 * @param told the mm grid that every capture lies on, in what is drawn over them, and the captures
 * @param onMoved called when another part is shown
 */
export async function openPanes(stage, { canvas, unitsPerMm, captures }, onMoved) {
  const OpenSeadragon = await library();
  forestallInlineStyle();
  const isCalm = matchMedia("(prefers-reduced-motion: reduce)").matches;
  const viewers = captures.map(({ number, pictures, tiles }) =>
    OpenSeadragon({
      element: tilesIn(stage, number),
      drawer: "canvas",
      showNavigationControl: false,
      keyboardNavEnabled: false,
      tabIndex: -1,
      animationTime: isCalm ? 0 : 0.25,
      immediateRender: true,
      visibilityRatio: 0.1,
      minZoomImageRatio: 0.4,
      maxZoomPixelRatio: MOST_ENLARGED,
      preserveImageSizeOnResize: true,
      gestureSettingsMouse: { clickToZoom: false, dblClickToZoom: true },
      gestureSettingsTouch: { clickToZoom: false, dblClickToZoom: true },
      gestureSettingsPen: { clickToZoom: false, dblClickToZoom: true },
      tileSources: {
        width: tiles.widthPx,
        height: tiles.heightPx,
        tileSize: tiles.sizePx,
        tileOverlap: tiles.overlapPx,
        minLevel: tiles.coarsest,
        maxLevel: tiles.finest,
        getTileUrl: (level, column, row) => `${pictures}/tiles/${level}/${column}_${row}.jpg`,
      },
    }),
  );
  await Promise.all(viewers.map((viewer) => new Promise((resolve) => viewer.addOnceHandler("open", resolve))));

  for (const [index, { number }] of captures.entries()) {
    follows(viewers[index], stage, number, canvas, unitsPerMm);
    viewers[index].world.getItemAt(0).whenFullyLoaded(() => wholePictureIn(stage, number)?.remove());
  }

  let leader = viewers[0];
  for (const viewer of viewers) {
    for (const touched of ["canvas-press", "canvas-scroll", "canvas-pinch", "canvas-double-click"])
      viewer.addHandler(touched, () => lead(viewer));
    viewer.addHandler("viewport-change", () => {
      if (viewer !== leader) return;
      follow();
      onMoved();
    });
    viewer.addHandler("resize", () => isWhole && showWhole());
  }
  let isWhole = true;

  function lead(viewer) {
    leader = viewer;
    leaveWhole();
  }

  function leaveWhole() {
    isWhole = false;
    for (const { number } of captures) wholePictureIn(stage, number)?.remove();
  }

  function follow() {
    const { viewport } = leader;
    for (const viewer of viewers) {
      if (viewer === leader) continue;
      viewer.viewport.zoomTo(viewport.getZoom(true), null, true);
      viewer.viewport.panTo(viewport.getCenter(true), true);
    }
  }

  const widthPx = () => leader.viewport.getContainerSize().x;
  /** The library's zoom is how often the width of the canvas would fit into the pane. */
  const zoomOf = (pxPerMm) => (pxPerMm * canvas.widthMm) / widthPx();
  const wholePxPerMm = () => {
    const { x, y } = leader.viewport.getContainerSize();
    return Math.min(x / canvas.widthMm, y / canvas.heightMm);
  };
  const pointAt = (xMm, yMm) => new OpenSeadragon.Point(xMm / canvas.widthMm, yMm / canvas.widthMm);

  function moveTo(place, isAtOnce = false) {
    leaveWhole();
    bringTo(place, isAtOnce);
  }

  function bringTo({ x, y, pxPerMm }, isAtOnce) {
    leader.viewport.zoomTo(zoomOf(pxPerMm), null, isAtOnce);
    leader.viewport.panTo(pointAt(x, y), isAtOnce);
    leader.viewport.applyConstraints(isAtOnce);
    if (isAtOnce) {
      follow();
      onMoved();
    }
  }

  function showWhole() {
    isWhole = true;
    bringTo({ x: canvas.widthMm / 2, y: canvas.heightMm / 2, pxPerMm: wholePxPerMm() }, true);
  }

  return {
    moveTo,
    showWhole,
    wholePxPerMm,
    isWhole: () => isWhole,
    zoomTo: (pxPerMm) => {
      leaveWhole();
      leader.viewport.zoomTo(zoomOf(pxPerMm));
      leader.viewport.applyConstraints();
    },
    zoomBy: (factor) => {
      leaveWhole();
      leader.viewport.zoomBy(factor);
      leader.viewport.applyConstraints();
    },
    moveBy: (rightPx, downPx) => {
      leaveWhole();
      leader.viewport.panBy(leader.viewport.deltaPointsFromPixels(new OpenSeadragon.Point(rightPx, downPx)));
      leader.viewport.applyConstraints();
    },
    /** the middle of what is shown, mm of the canvas, and how large: pixels of the page to the mm */
    place: () => {
      const centre = leader.viewport.getCenter(true);
      return {
        x: centre.x * canvas.widthMm,
        y: centre.y * canvas.widthMm,
        pxPerMm: (leader.viewport.getZoom(true) * widthPx()) / canvas.widthMm,
      };
    },
  };
}

/**
 * The library adds a style element for touch screens unless it finds one, and the page's policy refuses every inline style. It looks by
 * name and attribute alone, so one that is no style element of the page's language will do.
 */
function forestallInlineStyle() {
  const standIn = document.createElementNS("", "style");
  standIn.setAttribute("data-openseadragon-mobile-css", "not needed");
  document.head.append(standIn);
}

/** The pane's own part for the tiles, under what is drawn over them. */
function tilesIn(stage, number) {
  const picture = stage.querySelector(`[data-number="${number}"] .comparison-picture`);
  const tiles = document.createElement("div");
  tiles.className = "comparison-tiles";
  picture.prepend(tiles);
  return tiles;
}

/** Seen until tiles lie in its place, or another part is shown. */
const wholePictureIn = (stage, number) => stage.querySelector(`[data-number="${number}"] .comparison-picture > img`);

/** What is drawn over a capture shows the same part of the canvas as its tiles. */
function follows(viewer, stage, number, canvas, unitsPerMm) {
  const drawing = stage.querySelector(`[data-number="${number}"] .overlay-layers`);
  viewer.addHandler("update-viewport", () => {
    const { x, y, width, height } = viewer.viewport.getBounds(true).times(canvas.widthMm * unitsPerMm);
    drawing?.setAttribute("viewBox", `${x} ${y} ${width} ${height}`);
  });
}
