import '../evenfield-bench.js';

const bench = document.querySelector('evenfield-bench');
const told = document.querySelector('#told');
const corrected = document.querySelector('#corrected');

bench.addEventListener('evenfield-reading', ({ detail: reading }) => {
  const { spreadEv, plusMinusEv } = reading.falloff;
  told.textContent = `${reading.frame.name}: ${spreadEv.toFixed(2)} ± ${plusMinusEv.toFixed(2)} stop; even: ${reading.verdict.even}.`;
});
bench.addEventListener('evenfield-error', ({ detail: { code, message } }) => {
  told.textContent = `${code}: ${message}`;
});

document.querySelector('#subject').addEventListener('change', async ({ target }) => {
  const [file] = target.files;
  const newest = bench.takes.at(-1);
  if (file === undefined || newest === undefined) return;
  const profile = await bench.profile(newest.reading);
  const picture = await bench.correct(file, profile, { format: 'png' });
  const link = document.createElement('a');
  link.href = URL.createObjectURL(picture);
  link.download = file.name.replace(/\.[^.]*$/, '.corrected.png');
  link.textContent = `${link.download}, ${picture.size} bytes`;
  corrected.replaceChildren(link);
});
