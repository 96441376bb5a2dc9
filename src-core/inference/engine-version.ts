/**
 * Version of the numbers that inference and planning give. It changes whenever the same knowledge and the same
 * findings would give another answer, so that a stored case says what it was reasoned with.
 */
export const ENGINE_VERSION = '1';
