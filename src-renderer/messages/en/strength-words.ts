import { messages } from '../messages.ts';

export const m = messages('strengthWords', {
  aboutHalf: 'about half',
  always: 'always',
  hardlyEver: 'hardly ever',
  nearlyAlways: 'nearly always',
  often: 'often',
  rarely: 'rarely',
  seldom: 'seldom',
  sometimes: 'sometimes',
  usually: 'usually',
  atLeast: 'at least {label}: {strength}',
  atLevel: '{label}: {strength}',
  wordAndShare: '{word}, {share}',
});
