import type { CallName } from './call-names.ts';

/**
 * What screens follow: one case, the board of the shop, what rests with the lead, the shop's records and settings, who is
 * let in as what, and what a group session votes on.
 */
export const CHANGE_TOPICS = ['case', 'bench', 'inbox', 'shop', 'access', 'vote'] as const;
export type ChangeTopic = (typeof CHANGE_TOPICS)[number];

/** That something was written, not what: whoever shows it reads it again, through the gate and with its own rights. */
export interface Change {
  readonly topics: readonly ChangeTopic[];
  /** The case it is about; null where it may be any. */
  readonly caseId: string | null;
  /** The revision that the case has now; null where that is not said. */
  readonly revision: number | null;
}

const nothing = [] as const;
const aCase = ['case', 'bench', 'inbox'] as const;
const access = ['access'] as const;
const aVote = ['vote'] as const;
const records = ['shop', 'bench', 'inbox'] as const;

/** What each call changes once it went through. Every call is named, so that a new one has to say it. */
export const whatChanges = {
  'host:info': nothing,
  'guide:read': nothing,
  'guide:cause': nothing,
  'guide:observation': nothing,
  'guide:statements': nothing,
  'bench:read': nothing,
  'shop:read': nothing,
  'shop:save-printer': records,
  'shop:save-spool': records,
  'shop:save-person': ['shop', 'access'],
  'shop:delete-record': ['shop', 'bench', 'inbox', 'access'],
  'shop:save-climate': ['shop'],
  'shop:save-costs': ['shop'],
  'shop:save-display': ['shop'],
  'spool:read': nothing,
  'spool:storage': nothing,
  'spool:log': ['shop'],
  'job:begin': nothing,
  'job:piece': nothing,
  'job:end': nothing,
  'job:drop': nothing,
  'work:look': nothing,
  'work:stop': nothing,
  'log:read': nothing,
  'flow:sheet': nothing,
  'fit:materials': nothing,
  'case:open': aCase,
  'case:view': nothing,
  'case:send': aCase,
  'photo:keep': nothing,
  'case:why-candidate': nothing,
  'case:why-check': nothing,
  'case:second-thoughts': nothing,
  'case:last-time': nothing,
  'case:list': nothing,
  'case:reassign': aCase,
  'case:merge': aCase,
  'case:part': aCase,
  'case:link': aCase,
  'case:timeline': nothing,
  'case:then-and-now': nothing,
  'case:export': nothing,
  'case:import': aCase,
  'lead:experience': nothing,
  'lead:save-experience': ['shop'],
  'lead:guide-use': nothing,
  'lead:recurrence': nothing,
  'lead:season': nothing,
  'lead:save-humidity': ['shop'],
  'lead:save-time-zone': ['shop', 'inbox'],
  'lead:save-usual-hours': ['shop', 'inbox'],
  'action:list': nothing,
  'action:count-due': nothing,
  'action:open': ['inbox'],
  'action:log': ['inbox'],
  'case:profiles': nothing,
  'case:tags': nothing,
  'case:views': nothing,
  'case:save-views': nothing,
  'case:delete': aCase,
  'bin:list': nothing,
  'bin:restore': aCase,
  'bin:empty': nothing,
  'spreadsheet:look': nothing,
  'spreadsheet:import': aCase,
  'spreadsheet:imports': nothing,
  'spreadsheet:undo': aCase,
  'person:rename': ['shop', 'access'],
  'person:remove': ['shop', 'access'],
  'maintenance:list': nothing,
  'maintenance:history': nothing,
  'maintenance:log': ['bench', 'inbox'],
  'maintenance:save-plan': ['bench', 'inbox'],
  'report:make': nothing,
  'report:save-pdf': nothing,
  'training:view': nothing,
  'training:why-candidate': nothing,
  'training:why-check': nothing,
  'training:second-thoughts': nothing,
  'training:options': nothing,
  'training:drill': nothing,
  'training:photos': nothing,
  'training:free-photo': nothing,
  'training:record': nothing,
  'training:class': nothing,
  'training:keep': nothing,
  'training:export': nothing,
  'training:forget': nothing,
  'vote:look': nothing,
  'vote:ask': aVote,
  'vote:cast': aVote,
  'vote:reveal': aVote,
  'vote:end': aVote,
  'demo:load': CHANGE_TOPICS,
  'demo:remove': CHANGE_TOPICS,
  'backup:list': nothing,
  'casebook:begin-empty': CHANGE_TOPICS,
  'backup:make': nothing,
  'backup:restore': CHANGE_TOPICS,
  'access:me': nothing,
  'access:sign-in': access,
  'access:sign-out': access,
  'access:list': nothing,
  'access:invite': nothing,
  'access:change-device': access,
  'access:revoke-device': access,
  'access:set-pin': access,
  'network:read': nothing,
  'network:switch': access,
} as const satisfies Record<CallName, readonly ChangeTopic[]>;

/** The change that a call will have made once it went through, as far as that can be said before; null where screens follow nothing of it. */
export function changeToCome(name: CallName, input: unknown): Change | null {
  const topics: readonly ChangeTopic[] = whatChanges[name];
  if (topics.length === 0) return null;
  const caseId =
    typeof input === 'object' && input !== null && 'caseId' in input && typeof input.caseId === 'string'
      ? input.caseId
      : null;
  return { topics, caseId, revision: null };
}

/** The change that a call made with this answer; null where it changed nothing that screens follow. */
export function changeBy(name: CallName, answer: unknown): Change | null {
  const topics: readonly ChangeTopic[] = whatChanges[name];
  if (topics.length === 0) return null;
  // Of two cases the answer shows one; both are to be read again.
  const isOfTwo = name === 'case:merge' || name === 'case:part';
  const { caseId, revision } =
    !isOfTwo && typeof answer === 'object' && answer !== null
      ? (answer as { readonly caseId?: unknown; readonly revision?: unknown })
      : {};
  return typeof caseId === 'string'
    ? { topics, caseId, revision: typeof revision === 'number' ? revision : null }
    : { topics, caseId: null, revision: null };
}
