/** The few functions used of packages that bring no types. */
declare module "lcms-wasm" {
  /** a handle; 0 where the library refuses */
  type Handle = number;
  export type LCMS = {
    cmsOpenProfileFromMem(bytes: Uint8Array, length: number): Handle;
    cmsCloseProfile(profile: Handle): void;
    cmsCreateLab4Profile(white: null): Handle;
    cmsCreate_sRGBProfile(): Handle;
    cmsGetColorSpaceASCII(profile: Handle): string | null;
    cmsGetProfileInfoASCII(profile: Handle, info: number, language: string, country: string): string | null;
    cmsCreateTransform(from: Handle, fromType: number, to: Handle, toType: number, intent: number, flags: number): Handle;
    cmsDeleteTransform(transform: Handle): void;
    cmsDoTransform(transform: Handle, values: Float32Array, pixels: number): Float32Array;
  };
  export function instantiate(): Promise<LCMS>;
}

declare module "heic-decode" {
  export default function decode(input: { buffer: Uint8Array }): Promise<{ width: number; height: number; data: Uint8ClampedArray }>;
}
