// Gives back the study that the page carries, byte for byte. Without this script the button stays
// hidden: it could not do anything.
(function () {
  'use strict';

  const carried = document.getElementById('carried-study');
  const button = document.getElementById('save-study');
  if (!carried || !button) return;

  const study = JSON.parse(carried.textContent);
  const bytes = () => Uint8Array.from(atob(study.text_base64), (c) => c.charCodeAt(0));
  const fileName = /\.ya?ml$/i.test(study.name) ? study.name : study.name + '.yaml';

  button.addEventListener('click', () => {
    const link = document.createElement('a');
    link.href = URL.createObjectURL(new Blob([bytes()], { type: 'application/octet-stream' }));
    link.download = fileName;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 60000); // when the browser has long read it
  });
  button.hidden = false;
})();
