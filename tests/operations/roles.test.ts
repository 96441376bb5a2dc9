import { describe, expect, it } from 'vitest';
import { CALL_NAMES } from '../../src-core/contract/call-names.ts';
import { calls } from '../../src-core/contract/calls.ts';
import { ROLES } from '../../src-core/contract/roles.ts';
import type { Visitor } from '../../src-main/operations/access/visitor.ts';
import { programInMemory } from './program-in-memory.ts';

/**
 * Who may call what, written down a second time: o for operators, l for the lead, t for trainers. A change of rights is made
 * here as well as in the table, by somebody who means it.
 */
const GRID = `
  olt  host:info guide:read guide:cause guide:observation guide:statements bench:read shop:read spool:read spool:storage
  olt  job:begin job:piece job:end job:drop work:look work:stop log:read flow:sheet fit:materials
  olt  case:view case:why-candidate case:why-check case:second-thoughts case:last-time case:list case:timeline case:then-and-now
  olt  training:why-candidate training:why-check training:second-thoughts
  olt  training:view training:options training:drill training:record training:keep action:count-due
  olt  vote:look vote:cast
  olt  access:me access:sign-in access:sign-out case:views case:profiles case:tags maintenance:list maintenance:history
  ol   case:open case:send photo:keep spool:log shop:save-spool maintenance:log case:link
  lt   lead:experience lead:recurrence lead:season lead:guide-use action:list training:class training:export training:forget
  lt   training:photos training:free-photo
  lt   vote:ask vote:reveal vote:end
  l    shop:save-printer shop:save-person shop:delete-record shop:save-climate shop:save-costs shop:save-display
  l    lead:save-humidity case:export case:import lead:save-experience lead:save-time-zone lead:save-usual-hours action:open action:log demo:load demo:remove
  l    case:reassign case:merge case:part case:save-views case:delete bin:list bin:restore bin:empty person:rename person:remove report:make report:save-pdf
  l    spreadsheet:look spreadsheet:import spreadsheet:imports spreadsheet:undo maintenance:save-plan
  l    backup:list backup:make backup:restore casebook:begin-empty
  l    network:read network:switch access:list access:invite access:change-device access:revoke-device access:set-pin
`;

const allowed = new Map(
  GRID.trim()
    .split('\n')
    .flatMap((line) => {
      const [roles = '', ...names] = line.trim().split(/\s+/);
      return names.map((name) => [name, roles] as const);
    }),
);

/** No input of any call: past the table it is a bad request, before the table nothing of it is looked at. */
const NO_INPUT = { surprise: 1 };

describe('what a role may call', () => {
  it('is said of every call', () => {
    expect([...allowed.keys()].sort()).toEqual([...CALL_NAMES].sort());
  });

  it.each(ROLES)('%s: every call is let through or refused as the grid says', async (role) => {
    const { dispatcher } = await programInMemory();
    const by: Visitor = {
      kind: 'device',
      deviceId: '01ARZ3NDEKTSV4RRFFQ69G5FAV',
      label: 'Tablet at Heron',
      role,
      printerId: null,
      person: null,
    };
    for (const name of CALL_NAMES) {
      const reply = await dispatcher.dispatch(name, NO_INPUT, by);
      const mayCall = allowed.get(name)?.includes(role.charAt(0)) === true;
      expect(reply.ok ? 'answered' : reply.error.code, `${name} by ${role}`).toBe(
        mayCall ? 'bad-request' : 'forbidden',
      );
      if (!reply.ok && !mayCall) expect(reply.error.message).toMatch(/^This is for .*PIN\.$/);
    }
  });

  it('does not bind whoever sits at the machine itself', async () => {
    const { dispatcher } = await programInMemory();
    for (const name of CALL_NAMES.filter((one) =>
      (calls[one].callers as readonly string[]).includes('station'),
    ))
      expect(await dispatcher.dispatch(name, NO_INPUT)).toMatchObject({ error: { code: 'bad-request' } });
  });
});
