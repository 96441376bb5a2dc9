import { messages } from '../messages.ts';

export const m = messages('host', {
  beadwrightDoesNotAnswerWhatYou:
    'Beadwright does not answer ({message}). What you entered is still here; try again.',
});
