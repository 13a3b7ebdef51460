"""The pages a person meets, on the desk and on the phone."""
