/** Files as agencies and crews have them → a survey in our format, with questions in place of guesses. */

export { type GivenAnswers, readAnswers } from './answers.ts';
export { type Answered, askerWith } from './ask.ts';
export { importSurvey } from './engine.ts';
export { type Given, readGiven } from './read-given.ts';
