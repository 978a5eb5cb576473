/** The places that the raw decoder's two files are served from, unchanged and each under its own name. */
declare module 'libraw-wasm/dist/libraw.js?url' {
  const url: string;
  export default url;
}
declare module 'libraw-wasm/dist/libraw.wasm?url' {
  const url: string;
  export default url;
}
