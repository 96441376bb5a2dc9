import type { CallName } from './call-names.ts';
import type { Role } from './roles.ts';

const everybody = ['operator', 'lead', 'trainer'] as const;
/** Who works on printers: a trainer shows and explains, on cases of practice. */
const atTheMachine = ['operator', 'lead'] as const;
const leads = ['lead'] as const;
const whoTeaches = ['lead', 'trainer'] as const;

/**
 * The one table of rights: what each role may call, from a device that has joined. The dispatcher holds every call against
 * it; what a screen shows is never the rule. The machine on which Beadwright runs may do everything.
 */
export const callRoles = {
  'host:info': everybody,
  'guide:read': everybody,
  'guide:cause': everybody,
  'guide:observation': everybody,
  'guide:statements': everybody,
  'bench:read': everybody,
  'shop:read': everybody,
  'shop:save-printer': leads,
  'shop:save-spool': atTheMachine,
  'shop:save-person': leads,
  'shop:save-climate': leads,
  'shop:save-costs': leads,
  'shop:save-display': leads,
  'spool:read': everybody,
  'spool:storage': everybody,
  'spool:log': atTheMachine,
  'job:begin': everybody,
  'job:piece': everybody,
  'job:end': everybody,
  'job:drop': everybody,
  'work:look': everybody,
  'work:stop': everybody,
  'log:read': everybody,
  'flow:sheet': everybody,
  'fit:materials': everybody,
  'case:open': atTheMachine,
  'case:view': everybody,
  'case:send': atTheMachine,
  'photo:keep': atTheMachine,
  'case:why-candidate': everybody,
  'case:why-check': everybody,
  'case:second-thoughts': everybody,
  'case:last-time': everybody,
  'case:list': everybody,
  'case:timeline': everybody,
  'case:export': leads,
  'case:import': leads,
  'lead:experience': whoTeaches,
  'lead:save-experience': leads,
  'lead:recurrence': whoTeaches,
  'lead:save-time-zone': leads,
  'action:list': whoTeaches,
  /** A number at the frame of every screen. */
  'action:count-due': everybody,
  'action:open': leads,
  'action:log': leads,
  'case:views': everybody,
  'case:save-views': leads,
  'case:delete': leads,
  'bin:list': leads,
  'bin:restore': leads,
  'bin:empty': leads,
  'spreadsheet:look': leads,
  'spreadsheet:import': leads,
  'spreadsheet:imports': leads,
  'spreadsheet:undo': leads,
  'person:rename': leads,
  'person:remove': leads,
  'maintenance:list': everybody,
  'maintenance:history': everybody,
  'maintenance:log': atTheMachine,
  'maintenance:save-plan': leads,
  'report:make': leads,
  'training:view': everybody,
  'training:options': everybody,
  'training:drill': everybody,
  'training:record': everybody,
  'training:class': whoTeaches,
  'training:keep': everybody,
  'training:export': whoTeaches,
  'training:forget': whoTeaches,
  'demo:load': leads,
  'demo:remove': leads,
  'backup:list': leads,
  'casebook:begin-empty': leads,
  'backup:make': leads,
  'backup:restore': leads,
  'access:me': everybody,
  'access:sign-in': everybody,
  'access:sign-out': everybody,
  'access:list': leads,
  'access:invite': leads,
  'access:change-device': leads,
  'access:revoke-device': leads,
  'access:set-pin': leads,
} as const satisfies Record<CallName, readonly Role[]>;

export function mayCall(role: Role, name: CallName): boolean {
  return (callRoles[name] as readonly Role[]).includes(role);
}
