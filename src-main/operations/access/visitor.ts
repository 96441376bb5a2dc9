import type { Role } from '../../../src-core/contract/roles.ts';

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
export function visitorInWords(visitor: Visitor): string {
  if (visitor.kind === 'owner') return 'At the station itself';
  return visitor.person ? `${visitor.label} (${visitor.person.initials})` : visitor.label;
}
