import { messages } from '../messages.ts';

export const m = messages('importWords', {
  alreadyHere: '{cases} already here',
  cases: '{count, plural, one {1 case} other {# cases}}',
  inAll: '{parts}.',
  imported: '{cases} imported',
  linesCannotBeReadAnd: '{faulty, plural, one {1 line} other {# lines}} cannot be read and would be left out',
  linesCouldNotBeReadAnd:
    '{faulty, plural, one {1 line} other {# lines}} could not be read and {faulty, plural, one {was} other {were}} left out',
  noNewCases: 'no new cases',
  thereAreNoCasesInThis: 'there are no cases in this file.',
  wouldComeIn: '{cases} would come in',
});
