/** Time of people and machines that was lost, in minutes and hours; not in days, which nobody works through: "45 min", "6 h 30 min", "58 h". */
export function timeLost(minutes: number): string {
  const whole = Math.round(minutes);
  if (whole < 60) return `${whole} min`;
  if (whole >= 600) return `${Math.round(whole / 60).toLocaleString('en-GB')} h`;
  const rest = whole % 60;
  return rest === 0 ? `${whole / 60} h` : `${Math.floor(whole / 60)} h ${rest} min`;
}
