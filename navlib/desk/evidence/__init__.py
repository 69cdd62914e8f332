"""What instruments lying on a sheet tell of the work that was done with them."""
