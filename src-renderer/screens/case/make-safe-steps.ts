/** What to do at a dangerous sign, in this order, before any question is asked. */
export const MAKE_SAFE_STEPS: readonly string[] = [
  'Switch the printer off at its main switch. If switch or plug is hot, smoking or melted, cut the power at the socket strip or the breaker instead.',
  'Keep your face out of smoke and fumes, open windows and keep others away.',
  'If anything burns: leave, raise the alarm and follow the site’s fire rules. Never use water on a machine that may be live.',
  'Pull the plug once it is safe to touch. Leave covers closed and let everything cool for half an hour.',
  'Do not switch it on again to try. Tell the lead, and put a note on the machine.',
];
