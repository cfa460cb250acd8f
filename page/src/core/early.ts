/** The core and the first part of its library. The page's head has asked for the same files already (vite.config.ts), so that they are
 * on their way before any script is. The first module holds what the first answer needs; the whole one has every call. */
import firstUrl from '@core/bowlwright.first.wasm?url';
import wholeUrl from '@core/bowlwright.wasm?url';
import nearUrl from '@core/bowlwright.near.packed?url';

export interface Early {
  module: WebAssembly.Module;
  near: ArrayBuffer;
}

export async function fetched(url: string, what: string): Promise<Response> {
  const r = await fetch(url);
  if (!r.ok) throw new Error(`${what} could not be fetched (${r.status})`);
  return r;
}

/* A host that does not know what WebAssembly is gives it out as something else: then all of it has to be here first. */
async function compiled(r: Response): Promise<WebAssembly.Module> {
  if (r.headers.get('content-type')?.startsWith('application/wasm')) return WebAssembly.compileStreaming(r);
  return WebAssembly.compile(await r.arrayBuffer());
}

export const wholeModule = (): Promise<WebAssembly.Module> => fetched(wholeUrl, 'the core').then(compiled);

export async function early(module = (): Promise<WebAssembly.Module> => fetched(firstUrl, 'the core').then(compiled)): Promise<Early> {
  const [core, near] = await Promise.all([module(), fetched(nearUrl, 'the food library').then((r) => r.arrayBuffer())]);
  return { module: core, near };
}

/** A worker of this name waits for what was asked for early; of the other it takes the whole module; else it asks by itself. */
export const WAITS = 'waits';
export const WHOLE = 'whole';
