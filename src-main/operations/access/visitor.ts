import type { Role } from '../../../src-core/contract/roles.ts';
import { auditTexts } from '../../../src-core/words/en/audit.ts';
import type { Message } from '../../../src-core/words/message.ts';

const { m } = auditTexts;

/** On whose behalf a call comes. */
export type Visitor =
  /** Whoever sits at the machine on which Beadwright runs: window, command line, or browser with the printed address. */
  | { readonly kind: 'owner' }
  | {
      readonly kind: 'device';
      readonly deviceId: string;
      readonly label: string;
      /** The device's own, or that of whoever is signed in on it. */
      readonly role: Role;
      readonly printerId: string | null;
      readonly person: { readonly id: string; readonly initials: string } | null;
    };

export const OWNER: Visitor = { kind: 'owner' };

/** Whoever leads or trains. No role binds the owner. */
export function teaches(visitor: Visitor): boolean {
  return visitor.kind === 'owner' || visitor.role !== 'operator';
}

/** "Tablet at Heron (RK)", as the list of who did what has it. */
export function visitorSaid(visitor: Visitor): Message {
  if (visitor.kind === 'owner') return m.station();
  const { label, person } = visitor;
  return person ? m.deviceWithPerson({ label, initials: person.initials }) : m.device({ label });
}
