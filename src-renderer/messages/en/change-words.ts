import { messages } from '../messages.ts';

export const m = messages('changeWords', {
  down: '−{points} down',
  first: '{label}: {share}.',
  firstDown: '{label}: {share}, down {points} {points, plural, one {point} other {points}}.',
  firstUp: '{label}: {share}, up {points} {points, plural, one {point} other {points}}.',
  nothingCanBeSaidYet: 'Nothing can be said yet.',
  same: 'same',
  up: '+{points} up',
});
