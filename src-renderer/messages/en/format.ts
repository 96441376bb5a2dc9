import { messages } from '../messages.ts';

export const m = messages('format', {
  celsius: '{value} °C',
  celsiusFromTo: '{first} to {last} °C',
  d: '{days} d',
  dH: '{days} d {hours} h',
  f: '{first} °F',
  g: '{weight} g',
  h: '{hours} h',
  hMin: '{hours} h {whole} min',
  kg: '{weight} kg',
  min: '{whole} min',
  toF: '{first} to {toF} °F',
});
