/** The cautions that stand in the app, on every slate and in the README; one wording. */
export const CAUTIONS: readonly string[] = [
  'Planning is not diving. Plan within your training and certification.',
  'Analyse every cylinder yourself, and mark it with what you measured.',
  'Follow your dive computer, the operator and local rules; where this plan and they disagree, the more careful holds.',
  'Local rules and licensed practice come before anything Carryover says.',
  'Models and tables do not prevent decompression sickness or oxygen toxicity.',
];
