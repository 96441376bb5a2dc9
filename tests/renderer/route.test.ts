import { describe, expect, it } from 'vitest';
import { hrefTo, routeOf } from '../../src-renderer/navigation/route.svelte.ts';

describe('an address', () => {
  it('comes back from its link whatever its parts hold', () => {
    const parts = ['casebook', 'search=50 % / ABS'];
    expect(routeOf(hrefTo(...parts))).toEqual(parts);
  });

  it('that is badly encoded (RFC 3986, 2.1: "%" takes two digits) still leads somewhere', () => {
    expect(routeOf('#/case/%E0%A4%A')).toEqual(['case', '%E0%A4%A']);
  });
});
