import { messages } from '../messages.ts';

export const m = messages('format', {
  d: '{days} d',
  dH: '{days} d {hours} h',
  g: '{weight} g',
  h: '{hours} h',
  hMin: '{hours} h {whole} min',
  kg: '{weight} kg',
  min: '{whole} min',
});
