/** What is asked of the core, and an answer together with what is wrong with the texts. */
import type { Complaint, PageAnswer, ShelfAnswer } from './answers';

export interface Question {
  animals: string;
  /** Texts of own foods; their foods join the library. */
  own: string[];
  asked: Request;
}

/** What is asked beside the texts, by the core's own words (src/request/request.c). What is false or undefined is not said. */
export type Request = Record<string, string | number | boolean | undefined>;

export type Page = PageAnswer & { complaints: Complaint[] };
export type Shelf = ShelfAnswer & { complaints: Complaint[] };
