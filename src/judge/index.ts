/** judge: readings and facts in, verdicts out. */
export { type ArrivedFacts, judgeArrived, notMeasured } from './arrived.ts';
export {
  isSidecar,
  type MissingPartner,
  missingPartner,
  type PartnerFacts,
  partnerWaitMs,
} from './partner.ts';
