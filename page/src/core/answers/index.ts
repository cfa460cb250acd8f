/** What the core answers. Printed from the tables of src/json, which write it: change them, not this file
 * (tests/json/json_keys_test.c). Missing is null, never 0. */
import type { Complaint } from './page';

export * from './words';
export * from './pictures';
export * from './check';
export * from './recipe';
export * from './ribbon';
export * from './rail';
export * from './finding';
export * from './quiet';
export * from './post';
export * from './why';
export * from './food';
export * from './side';
export * from './swap';
export * from './mend';
export * from './left';
export * from './compose';
export * from './reply';
export * from './sheet';
export * from './week';
export * from './rotate';
export * from './many';
export * from './trend';
export * from './slim';
export * from './page';
export * from './lines';
export * from './entry';

/** What every call of the core says; the answer is null when there is none. */
export interface Envelope<T> {
  complaints: Complaint[];
  answer: T | null;
}
