import { messages } from '../messages.ts';

export const m = messages('changeWords', {
  down: '−{points} down',
  nothingCanBeSaidYet: 'Nothing can be said yet.',
  points: ', {direction} {points} {points, plural, one {point} other {points}}',
  up: '+{points} up',
});
