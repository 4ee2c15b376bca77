/** slate: codes that are held into the picture, the clock shown as one, and the grey card. */
export { type ClockReading, measureClock } from './clock.ts';
export { isGreyCard, type SmallPicture } from './grey-card.ts';
export { type Corners, type FoundCode, type Meant, meantSlate } from './meant-slate.ts';
export { type CodeModules, codeModules, modulesPath, quietModules } from './modules.ts';
export { type ClockSlate, readSlate, type ShotSlate, type Slate, writeSlate } from './payload.ts';
