/** The core and the first part of its library, asked for as soon as the page's script runs, while the worker is still starting. The
 * page's head has asked for the same files already (vite.config.ts), so that they are on their way before any script is. */
import moduleUrl from '@core/bowlwright.wasm?url';
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

export async function early(): Promise<Early> {
  const [module, near] = await Promise.all([
    fetched(moduleUrl, 'the core').then(compiled),
    fetched(nearUrl, 'the food library').then((r) => r.arrayBuffer()),
  ]);
  return { module, near };
}

/** A worker of this name waits for what was asked for early; another asks by itself. */
export const WAITS = 'waits';
