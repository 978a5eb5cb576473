/** As much of the package as is used here; it ships no types. */
declare module 'lcms-wasm' {
  /** Handles are addresses; 0 is none. */
  export interface Lcms {
    cmsOpenProfileFromMem(bytes: Uint8Array, length: number): number;
    cmsCloseProfile(profile: number): void;
    cmsCreateXYZProfile(): number;
    cmsCreateTransform(
      input: number,
      inputFormat: number,
      output: number,
      outputFormat: number,
      intent: number,
      flags: number,
    ): number;
    cmsDeleteTransform(transform: number): void;
    cmsDoTransform(transform: number, codes: Uint16Array, pixels: number): Float32Array;
  }
  export function instantiate(): Promise<Lcms>;
}
