import { messages } from '../messages.ts';

export const m = messages('profiles', {
  printProfile: 'Print profile',
});
