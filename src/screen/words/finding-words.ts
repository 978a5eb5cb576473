/** How sure a finding is (0 to 1), in a word or two. */
export function sureness(confidence: number): string {
  if (confidence >= 0.95) return 'certain';
  if (confidence >= 0.75) return 'likely';
  return confidence >= 0.5 ? 'more likely than not' : 'possible';
}
