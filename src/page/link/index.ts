/** link: the page's calls and its ear on the station's events. Everything that comes in is parsed here. */

export { checkBag, fetchBags, makeBag, stopBag } from './bag-calls.ts';
export {
  addCamera,
  basePictureAddress,
  fetchDiary,
  fetchLine,
  fetchReadings,
  fetchStation,
  firstViewAddress,
  letGoOf,
  markFrames,
  patchCamera,
  patchFrameShot,
  patchMark,
  pictureAddress,
  regionAddress,
  rehearseLine,
} from './calls.ts';
export { showClient } from './client-calls.ts';
export {
  fetchDestinations,
  forgetDestination,
  putDestination,
  testDestination,
} from './destination-calls.ts';
export {
  beginDelivery,
  changeDelivery,
  checkCard,
  fetchCards,
  fetchDelivery,
  fetchSpecifications,
  planDelivery,
  putOriginalsBack,
  setVerification,
  stopCard,
  takeInCard,
} from './hand-over-calls.ts';
export {
  acceptVerdict,
  addShot,
  bringShotBack,
  countTarget,
  exportAddress,
  fetchJob,
  fetchJobs,
  importShots,
  layoutAddress,
  makeJob,
  orderShots,
  patchFrame,
  patchJob,
  patchShot,
  putBackAct,
  putLayout,
  removeBaseline,
  removeShot,
  scaleGone,
  setBaseline,
  setScale,
  takeFramesIn,
  targetGone,
  undoAct,
} from './job-calls.ts';
export {
  endLink,
  enterByLink,
  fetchLinks,
  fetchVisitor,
  isShutOut,
  leaveLink,
  makeLink,
} from './link-calls.ts';
export {
  fetchEveryLook,
  fetchLooks,
  fetchLookVersions,
  fetchScene,
  fetchSceneTile,
  lookPictureAddress,
  saveLook,
  tryLook,
  useLook,
} from './look-calls.ts';
export {
  bringMetadataSheetBack,
  fetchMetadataSheets,
  forgetMetadataSheet,
  keepMetadataSheet,
} from './metadata-calls.ts';
export {
  fetchAgreements,
  sendAgreement,
  sendAnswer,
  sendRemark,
  settleRemark,
  withdrawAgreement,
} from './remark-calls.ts';
export { screenId } from './screen.ts';
export { isUnknown, Refused, wordsOf } from './station-call.ts';
export { openStationLink } from './station-link.ts';
export { explainLine, fetchStrike, sayLastNumber, signStrike, unexplainLine } from './strike-calls.ts';
