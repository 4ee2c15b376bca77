/** judge: readings and facts in, verdicts out. */
export { type ArrivedFacts, judgeArrived, notMeasured } from './arrived.ts';
