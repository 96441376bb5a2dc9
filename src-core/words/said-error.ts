import { inEnglish } from './in-english.ts';
import type { Message } from './message.ts';

/** Something that went wrong in a way that people can be told of: screens say `said` in their language, logs `message`. */
export class SaidError extends Error {
  readonly said: Message;

  constructor(said: Message, options?: ErrorOptions) {
    super(inEnglish(said), options);
    this.said = said;
  }
}
