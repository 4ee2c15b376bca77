/** paper: what is to be printed, as PDF. */
export { type CameraSheetPaper, cameraSheetPdf } from './camera-sheet.ts';
