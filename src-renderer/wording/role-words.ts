import { ROLES, type Role } from '../../src-core/contract/roles.ts';

const WORDS: Readonly<Record<Role, string>> = { operator: 'Operator', lead: 'Lead', trainer: 'Trainer' };

/** Roles to choose from, with their words. */
export const ROLE_CHOICES: readonly { readonly role: Role; readonly words: string }[] = ROLES.map((role) => ({
  role,
  words: WORDS[role],
}));

export function roleWords(role: Role): string {
  return WORDS[role];
}
