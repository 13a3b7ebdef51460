// A print button, where there are scripts to press it with.

const button = document.querySelector("[data-print]");
button.hidden = false;
button.addEventListener("click", () => print());
