import { messages } from '../messages.ts';

export const m = messages('timeLost', {
  h: '{whole} h',
  hMin: '{whole} h {rest} min',
  min: '{whole} min',
});
