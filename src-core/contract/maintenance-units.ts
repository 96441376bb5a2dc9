/**
 * What a task of maintenance is counted by: print hours, print hours with abrasive filament, prints, metres of plain filament
 * (abrasive filament counts many times), days.
 */
export const MAINTENANCE_UNITS = ['hours', 'abrasiveHours', 'prints', 'metres', 'days'] as const;
export type MaintenanceUnit = (typeof MAINTENANCE_UNITS)[number];
