/** Where texts are kept. One small interface: this browser (browser.ts), or a program that serves the page
 * (docs/internals/page-storage.md says how that one speaks). */

export type Kind = 'recipe' | 'animals' | 'larder' | 'foods' | 'plan' | 'journal';

export interface Text {
  id: string;
  kind: Kind;
  body: string;
  /** Counts the saves of this text; a save names the one it was made from. */
  rev: number;
  /** When it was saved, as ISO 8601 in UTC. */
  saved: string;
}

export interface Version {
  id: string;
  rev: number;
  saved: string;
  body: string;
}

/** All texts with all their versions, as one file. */
export interface Bundle {
  bowlwright: 1;
  texts: Text[];
  versions: Version[];
}

export type Saved = { ok: true; rev: number; saved: string } | { ok: false; theirs: Text | null };

/** Whoever keeps the texts has no room for this one. Later there may be. */
export class NoRoom extends Error {
  constructor() {
    super('there is no room left');
  }
}

/** Whoever keeps the texts does not answer at all. */
export class Unreachable extends Error {}

export interface Watcher {
  /** Somebody else (another tab) saved a text; rev 0: removed it. */
  told(id: string, rev: number): void;
  /** Changes may have been missed: everything is to be looked at again. */
  missed(): void;
  /** The store does not answer any more, or answers again. */
  reach(there: boolean): void;
}

export interface TextStore {
  /** In words, for the reader: "in this browser". */
  readonly where: string;
  /** The program that gives out the page keeps them. */
  readonly served: boolean;
  list(): Promise<{ texts: Text[]; damaged: number }>;
  /** Saves when 'base' is the newest rev there is (0: a new text); otherwise changes nothing and tells what is there. */
  write(id: string, kind: Kind, body: string, base: number, keepVersion: boolean): Promise<Saved>;
  remove(id: string, base: number): Promise<boolean>;
  /** Newest first. */
  versions(id: string): Promise<Version[]>;
  export(): Promise<Bundle>;
  /** Texts of the bundle that are already here get a new version; nothing is lost. Returns how many texts it held. */
  import(bundle: Bundle): Promise<number>;
  watch(watcher: Watcher): () => void;
}

const KINDS: readonly string[] = ['recipe', 'animals', 'larder', 'foods', 'plan', 'journal'];
const LONGEST = 4 * 1024 * 1024;

/** Only what is whole passes: what comes from a disk or a file is not trusted. */
export function isText(x: unknown): x is Text {
  const t = x as Text;
  return (
    typeof x === 'object' &&
    x !== null &&
    typeof t.id === 'string' &&
    t.id.length > 0 &&
    t.id.length <= 100 &&
    typeof t.kind === 'string' &&
    KINDS.includes(t.kind) &&
    typeof t.body === 'string' &&
    t.body.length <= LONGEST &&
    Number.isSafeInteger(t.rev) &&
    t.rev > 0 &&
    typeof t.saved === 'string'
  );
}

export function isVersion(x: unknown): x is Version {
  const v = x as Version;
  return (
    typeof x === 'object' &&
    x !== null &&
    typeof v.id === 'string' &&
    typeof v.body === 'string' &&
    v.body.length <= LONGEST &&
    Number.isSafeInteger(v.rev) &&
    typeof v.saved === 'string'
  );
}

/** Reads an exported file; throws with words for the reader. */
export function readBundle(file: string): Bundle {
  let x: unknown;
  try {
    x = JSON.parse(file);
  } catch {
    throw new Error('This is not a file that Bowlwright exported.');
  }
  const b = x as Partial<Bundle> | null;
  if (typeof b !== 'object' || b === null || b.bowlwright !== 1 || !Array.isArray(b.texts))
    throw new Error('This is not a file that Bowlwright exported.');
  const texts = b.texts.filter(isText);
  if (texts.length === 0) throw new Error('The file has no text that can be read.');
  return { bowlwright: 1, texts, versions: (Array.isArray(b.versions) ? b.versions : []).filter(isVersion) };
}

export function newId(): string {
  return crypto.randomUUID();
}
