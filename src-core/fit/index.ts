/** Material against application: which materials suit, with what margin, and what that says about a part that failed. */
export { factsOfMaterial } from './filled-facts.ts';
export { reportOnFit } from './fit-report.ts';
export { gradeInWords } from './grade.ts';
export { judgeHeat } from './heat-rule.ts';
export { judgeMaterial } from './judge-material.ts';
export type { MaterialFacts } from './material-facts.ts';
export { rankMaterials } from './rank-materials.ts';
