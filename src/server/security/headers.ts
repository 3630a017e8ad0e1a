import { secureHeaders } from "hono/secure-headers";

/**
 * What every answer says to the browser: nothing but our own files may run, be shown or be sent to,
 * and nobody else may frame or embed a page. Inline scripts and styles are refused too.
 */
export const headers = secureHeaders({
  contentSecurityPolicy: {
    defaultSrc: ["'none'"],
    scriptSrc: ["'self'"],
    styleSrc: ["'self'"],
    imgSrc: ["'self'", "blob:"],
    connectSrc: ["'self'"],
    fontSrc: ["'self'"],
    formAction: ["'self'"],
    baseUri: ["'none'"],
    frameAncestors: ["'none'"],
  },
  xFrameOptions: "DENY",
  referrerPolicy: "same-origin",
  // The program is served over plain HTTP at its own machine: a promise of HTTPS would lock the keeper out.
  strictTransportSecurity: false,
  permissionsPolicy: { camera: [], microphone: [], geolocation: [], payment: [], usb: [] },
});
