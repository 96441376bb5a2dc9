import { messages } from '../messages.ts';

export const m = messages('whenWords', {
  and: ' and ',
  below: 'below {rest}',
  from: 'from {rest}',
  or: '{words} or {words2}',
});
