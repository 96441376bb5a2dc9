import { messages } from '../messages.ts';

export const m = messages('codes', {
  backToTheShop: 'Back to the shop',
  print: 'Print',
});
