/** A script of its own, the first to arrive (vite.config.ts): a worker takes longest to be there, and needs nothing of the page for it. */
import { early, WAITS } from './early';

export const firstWorker = new Worker(new URL('./worker.ts', import.meta.url), { type: 'module', name: WAITS });
export const firstParts = early();
firstParts.catch(() => undefined);
