/** paper: what is to be printed, as PDF. */
export { type CameraSheetPaper, cameraSheetPdf } from './camera-sheet.ts';
export { type ContactSheetPaper, type PlannedContactSheet, planContactSheet } from './contact-sheet.ts';
export type { PaperSize } from './document.ts';
export { type JobReportPaper, jobReportPdf } from './job-report.ts';
export type { ContactFrame, ContactSection } from './plan-contact.ts';
