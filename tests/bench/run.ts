// `npm run bench`: times at the shipped guide. `npm run bench -- shop …`: a whole shop. `npm run bench -- casebook [CASES]`: a
// casebook of a million cases. `npm run bench -- answers [CASES]`: what an answer at the machine costs. `npm run bench -- screens
// [CASES]`: what somebody waits for in a browser.
export {};

switch (process.argv[2]) {
  case 'shop':
    await import('./shop/index.ts');
    break;
  case 'casebook': {
    const { benchCasebook } = await import('./casebook/index.ts');
    await benchCasebook(Number(process.argv[3] ?? 1_000_000));
    break;
  }
  case 'answers': {
    const { benchAnswers } = await import('./answers.ts');
    await benchAnswers(Number(process.argv[3] ?? 30), [6, 1000]);
    break;
  }
  case 'screens': {
    const { benchScreens } = await import('./screens.ts');
    await benchScreens(Number(process.argv[3] ?? 20));
    break;
  }
  default:
    await import('./index.ts');
}
