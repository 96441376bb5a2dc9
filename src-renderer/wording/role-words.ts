import { ROLES, type Role } from '../../src-core/contract/roles.ts';
import { m } from '../messages/en/role-words.ts';

const WORDS: Readonly<Record<Role, string>> = {
  operator: m.operator(),
  lead: m.lead(),
  trainer: m.trainer(),
};

/** Roles to choose from, with their words. */
export const ROLE_CHOICES: readonly { readonly role: Role; readonly words: string }[] = ROLES.map((role) => ({
  role,
  words: WORDS[role],
}));

export function roleWords(role: Role): string {
  return WORDS[role];
}
