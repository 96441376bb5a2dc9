/** Who somebody is in the shop. */
export const ROLES = ['operator', 'lead', 'trainer'] as const;
export type Role = (typeof ROLES)[number];
