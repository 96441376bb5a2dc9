import { messages } from '../messages.ts';

export const m = messages('app', {
  theGuide: 'the guide',
});
