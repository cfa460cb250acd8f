/** What stands between the person and the next act: a search that runs, a change that is proposed. */
import { computed, signal } from '@preact/signals';
import type { HelpfulFood, MendFound } from './core/answers';
import { Core } from './core/client';
import { WHOLE } from './core/early';
import type { Progress } from './core/worker';
import { withTaken, type Hunk } from './writing/changes';

/** One way to mend: with everything, with foods alone, with supplements alone. */
export type Way = MendFound;

export type Act =
  | { kind: 'none' }
  | { kind: 'working'; words: string; since: number; found: Progress | null; take: (() => void) | null }
  | {
      kind: 'proposal';
      id: string;
      old: string;
      ways: Way[];
      /** Which of them is shown. */
      way: number;
      hunks: Hunk[];
      why: Map<string, string[]>;
      complete: boolean;
      stopped: boolean;
      /** What is fed but not counted, and what that means for the change; '' when everything is counted. */
      notCounted: string;
    }
  | { kind: 'impossible'; words: string[]; help: HelpfulFood[]; nearest: (() => void) | null }
  | { kind: 'said'; words: string };

export const act = signal<Act>({ kind: 'none' });
export const proposed = computed(() => (act.value.kind === 'proposal' ? withTaken(act.value.old, act.value.hunks) : null));

/* A core of their own, so that writing never waits for a search, and can be stopped. */
let helper: Core | null = null;
export const actCore = (): Core => (helper ??= new Core(() => new Worker(new URL('./core/worker.ts', import.meta.url), { type: 'module', name: WHOLE })));

/** What runs is ended, and what is proposed is gone. */
export function stop(): void {
  helper?.end();
  helper = null;
  act.value = { kind: 'none' };
}

/** What may be added: any food (''), no supplements ('foods'), or first what the larder with this id holds. */
export const mendWith = signal('');
