import { locale } from './language.ts';

/** Several things as one: "a, b and c", or where one of them is enough "a, b or c", as the page's language joins them. */
export function listed(parts: readonly string[], joinedBy: 'and' | 'or' = 'and'): string {
  const type = joinedBy === 'and' ? 'conjunction' : 'disjunction';
  return new Intl.ListFormat(locale(), { type }).format(parts);
}
