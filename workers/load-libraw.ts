import librawUrl from 'libraw-wasm/dist/libraw.js?url';
import wasmUrl from 'libraw-wasm/dist/libraw.wasm?url';
import type { MakeLibraw } from './raw-decoder.ts';

/**
 * Loads LibRaw's own two files, fetched unchanged from where they are served: whoever replaces them replaces LibRaw. Its
 * code is compiled once for all files; each gets an instance of its own.
 */
export async function loadLibraw(): Promise<{ makeLibraw: MakeLibraw; options: object }> {
  const at = (url: string) => new URL(url, import.meta.url).href;
  const [{ default: makeLibraw }, module] = await Promise.all([
    import(/* @vite-ignore */ at(librawUrl)) as Promise<{ default: MakeLibraw }>,
    compiledOnce(at(wasmUrl)),
  ]);
  const instantiateWasm = (
    imports: WebAssembly.Imports,
    done: (instance: WebAssembly.Instance, module: WebAssembly.Module) => void,
  ) => {
    done(new WebAssembly.Instance(module, imports), module); // at once, so that what fails is thrown to who asked
    return {};
  };
  return { makeLibraw, options: { instantiateWasm } };
}

let compiled: Promise<WebAssembly.Module> | null = null;

/** What failed is tried anew for the next file. */
function compiledOnce(url: string): Promise<WebAssembly.Module> {
  compiled ??= compile(url).catch((error: unknown) => {
    compiled = null;
    throw error;
  });
  return compiled;
}

/** While it comes, where the server says what it is. */
async function compile(url: string): Promise<WebAssembly.Module> {
  const response = await fetch(url);
  if (!response.ok) throw new Error(`the server answers ${response.status}`);
  const isNamed = response.headers.get('content-type')?.startsWith('application/wasm');
  return isNamed ? WebAssembly.compileStreaming(response) : WebAssembly.compile(await response.arrayBuffer());
}
